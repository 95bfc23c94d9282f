namespace ClimateGuard.Tests.Edges.PlantFile;

/// <summary>A plant file with every key of the agreed shape, as text.</summary>
internal static class ExamplePlant
{
    public const string Text = """
        # The plant file, version 1: the agreed shape, by example. Every key not marked "required" has a
        # documented default whose provenance (default | measured | fitted) the pages show.
        version: 1                      # required
        cell: cell9                     # required; used in topics
        name: Example cell
        timeZone: Europe/Vienna         # screens, shifts; storage is UTC
        referenceC: 20.0

        zones:                          # required, one or more
          - id: main
            setpointC: 20.0
            bandK: 1.0                  # what the room is asked to hold; shown, never the hold criterion
            airHandlers: [ahu1]
            setBacks:                   # kept elsewhere on purpose, each week, local time; state all or none
              - { from: Sat 14:30, until: Mon 05:00, setpointC: 22.6 }
              - { from: Wed 22:00, until: Thu 04:30, setpointC: 21.5 }

        sensors:                        # required
          - id: air/a1                  # required; [A-Za-z0-9._/-]+ ; default topic cg/{cell}/reading/{id}
            quantity: temperature       # temperature | relativeHumidity | contact | fraction | pressure | flow | power | speed
            place: air                  # air | supply | return | mixed | outdoor | hall | coolant | dielectric | scale |
                                        # structure | part | pallet | storage | chilledWater | command | door
            zone: main
            heightM: 1.5
            unit: C                     # when the payload names none: C | F | K | % | kW | Pa | fraction
            periodS: 10
            uncertaintyK: 0.05
            timeConstantS: 60
            plausible: [5, 45]
            calibrations:
              - { from: 2026-01-10T08:00:00Z, offset: 0.03, uncertainty: 0.03, instance: "SN 4411" }
          - { id: air/a2, quantity: temperature, place: air, zone: main }
          - { id: ahu1/supply, quantity: temperature, place: supply, airHandler: ahu1 }
          - { id: ahu1/return, quantity: temperature, place: return, airHandler: ahu1 }
          - { id: m1/coolant, quantity: temperature, place: coolant, machine: M1 }
          - { id: door/roller, quantity: contact, place: door, zone: main }

        airHandlers:
          - id: ahu1
            medium: chilledWater        # chilledWater | directExpansion
            outdoorAir: false           # true: dampers, mixed air, economiser rules apply
            points:                     # role: sensor id; what is absent limits what can be said
              supply: ahu1/supply
              return: ahu1/return
              # mixed, outdoor, supplySetpoint, heatingSetpoint, coolingCommand, heatingCommand, damperCommand,
              # fanStatus, fanSpeed, filterPressure, chilledWater, compressor, occupied

        machines:
          - id: M1                      # required
            kind: 5-axis horizontal
            zone: main
            envelopeMm: [800, 800, 800]
            accuracyUm: 6
            scale: { alpha: 10.5, uAlpha: 0.5, timeConstantMin: 40, compensated: false }   # ks of domain.md B.1
            partCompensated: false                                                          # kp
            coolant: m1/coolant
            drift:                      # environment modes, domain.md B.6
              - { axis: z, sensitivityUmPerK: -2.0, timeConstantH: 0.8 }
              - { axis: z, sensitivityUmPerK: 7.0, timeConstantH: 6.0 }
            spindle:
              - { axis: z, fullUm: 18, timeConstantMin: 25 }

        materials:                      # additions to and changes of config/materials.yaml
          - { id: special-iron, alpha: 10.9, uAlpha: 0.4, conductivity: 38, density: 7100, specificHeat: 500, source: "our certificate" }

        parts:
          - number: CP-100              # required
            name: carrier plate
            material: special-iron      # required: id
            massKg: 60
            volumeToAreaMm: 20
            shape: slab                 # slab | cylinder | disc ; with halfThicknessMm for conduction inside the part
            halfThicknessMm: 22
            class: critical             # standard | reworkable | critical
            machines: [M1]
            features:
              - id: bolt-circle         # required
                kind: position          # size | depth | distance | position | coaxiality
                toleranceMm: 0.060      # position, coaxiality: diameter of the zone; others: the plus-or-minus half width
                datum: axis             # axis | bore | corner
                boltCircle: { radiusMm: 300, count: 12, firstAngleDeg: 0 }   # or points: [[x, y], …] from the datum
                budgetUm: 18            # or budgetShare: 0.30 of toleranceMm
                strategy: interpolated  # interpolated | tableIndexed | turned | twoSided
                modifier: rfs           # rfs | mmc | lmc
                finishMinutes: 25
              - { id: bore, kind: size, nominalMm: 240, toleranceMm: 0.020, budgetShare: 0.30, finishMinutes: 8 }
              - { id: pocket, kind: depth, nominalMm: 30, toleranceMm: 0.015, budgetShare: 0.30, axis: z }
              - { id: pitch, kind: distance, nominalMm: 200, toleranceMm: 0.012, budgetShare: 0.30 }

        policies:
          guardFactor: 1.645
          probability: { watch: 0.02, measure: 0.10, hold: 0.30, releaseHold: 0.10, releaseMeasure: 0.04 }
          shifts: [ { name: early, from: "06:00", to: "14:00", days: [Mon, Tue, Wed, Thu, Fri] } ]
          rates: { machinePerHour: 225, scrapPerPart: 9000, currency: EUR }

        """;

    /// <summary>The example with one piece of text replaced; the piece must be there.</summary>
    public static string With(string piece, string replacement) => Text.Contains(piece, StringComparison.Ordinal)
        ? Text.Replace(piece, replacement, StringComparison.Ordinal)
        : throw new ArgumentException($"the example does not contain: {piece}");

    /// <summary>The line, from 1, in which a piece of text first stands.</summary>
    public static int LineOf(string text, string piece)
    {
        var at = text.IndexOf(piece, StringComparison.Ordinal);
        return at < 0 ? throw new ArgumentException($"the text does not contain: {piece}") : text[..at].Count(c => c == '\n') + 1;
    }
}
