using System.Globalization;
using System.Text;

namespace ClimateGuard.Tests.Edges.Files.Inspection;

/// <summary>
/// A QIF 3.0 document with the elements of QIFDocument.xsd, QIFResults.xsd, Characteristics.xsd, Traceability.xsd, Units.xsd (namespace http://qifstandards.org/xsd/qif3), as a
/// results sample of the standard's community holds them: units, device, definition, nominal, item, features and measurements, chained by ids.
/// </summary>
public sealed record QifText
{
    public string Unit { get; init; } = "<LinearUnit><SIUnitName>meter</SIUnitName><UnitName>mm</UnitName><UnitConversion><Factor>0.001</Factor></UnitConversion></LinearUnit>";

    public string Compensation { get; init; } = "<TemperatureCompensation><TemperatureCompensationEnum>DEVICE_ONLY</TemperatureCompensationEnum></TemperatureCompensation>";

    public string Serial { get; init; } = "<SerialNumber>S1</SerialNumber>";

    public string Traceability { get; init; } = "";

    public string End { get; init; } = "2026-03-02T14:00:00+01:00";

    public string Measurements { get; init; } = Bore("10.002");

    public string Zone { get; init; } = "<DiametralZone/>";

    public static string Bore(string value, string attributes = "combinedUncertainty=\"0.0015\"") =>
        $"<DiameterCharacteristicMeasurement id=\"40\"><Status><CharacteristicStatusEnum>PASS</CharacteristicStatusEnum></Status><CharacteristicItemId>30</CharacteristicItemId>" +
        $"<MeasurementDeviceIds n=\"1\"><Id>5</Id></MeasurementDeviceIds><Value {attributes}>{value}</Value></DiameterCharacteristicMeasurement>";

    public static string Hole(string value) =>
        "<PositionCharacteristicMeasurement id=\"41\"><Status><CharacteristicStatusEnum>FAIL</CharacteristicStatusEnum></Status><CharacteristicItemId>31</CharacteristicItemId>" +
        "<TimeStamp>2026-03-02T12:30:00Z</TimeStamp><FeatureMeasurementIds n=\"1\"><Id>52</Id></FeatureMeasurementIds><MeasurementDeviceIds n=\"1\"><Id>5</Id></MeasurementDeviceIds>" +
        $"{value}</PositionCharacteristicMeasurement>";

    public byte[] Bytes => Encoding.UTF8.GetBytes(Text);

    public string Text => string.Create(CultureInfo.InvariantCulture, $"""
        <?xml version="1.0" encoding="UTF-8"?>
        <QIFDocument xmlns="http://qifstandards.org/xsd/qif3" versionQIF="3.0.0" idMax="99">
          <FileUnits><PrimaryUnits>{Unit}</PrimaryUnits></FileUnits>
          <Product><PartSet n="1"><Part id="2"><ModelNumber>D-1</ModelNumber></Part></PartSet></Product>
          <MeasurementResources><MeasurementDevices n="1"><UniversalDevice id="5"><Name>CMM-1</Name>{Compensation}</UniversalDevice></MeasurementDevices></MeasurementResources>
          <Features>
            <FeatureNominals n="1"><CylinderFeatureNominal id="50"><Axis><AxisPoint>0 450 0</AxisPoint><Direction>0 0 1</Direction></Axis></CylinderFeatureNominal></FeatureNominals>
            <FeatureItems n="1"><CylinderFeatureItem id="51"><FeatureNominalId>50</FeatureNominalId></CylinderFeatureItem></FeatureItems>
          </Features>
          <Characteristics>
            <CharacteristicDefinitions n="2">
              <DiameterCharacteristicDefinition id="10"><Tolerance><MaxValue>0.02</MaxValue><MinValue>-0.02</MinValue><DefinedAsLimit>false</DefinedAsLimit></Tolerance></DiameterCharacteristicDefinition>
              <PositionCharacteristicDefinition id="11"><ToleranceValue>0.06</ToleranceValue><MaterialCondition>MAXIMUM</MaterialCondition><ZoneShape>{Zone}</ZoneShape></PositionCharacteristicDefinition>
            </CharacteristicDefinitions>
            <CharacteristicNominals n="2">
              <DiameterCharacteristicNominal id="20"><CharacteristicDefinitionId>10</CharacteristicDefinitionId><TargetValue>10</TargetValue></DiameterCharacteristicNominal>
              <PositionCharacteristicNominal id="21"><CharacteristicDefinitionId>11</CharacteristicDefinitionId></PositionCharacteristicNominal>
            </CharacteristicNominals>
            <CharacteristicItems n="3">
              <DiameterCharacteristicItem id="30"><Name>bore</Name><CharacteristicDesignator><Designator>bore</Designator></CharacteristicDesignator><CharacteristicNominalId>20</CharacteristicNominalId></DiameterCharacteristicItem>
              <PositionCharacteristicItem id="31"><Name>7</Name><CharacteristicDesignator><Designator>holes</Designator></CharacteristicDesignator><CharacteristicNominalId>21</CharacteristicNominalId></PositionCharacteristicItem>
              <FlatnessCharacteristicItem id="32"><Name>113</Name></FlatnessCharacteristicItem>
            </CharacteristicItems>
          </Characteristics>
          <Results>
            <MeasurementResultsSet n="1"><MeasurementResults id="60">
              <InspectionTraceability><ReportNumber>7</ReportNumber><InspectionEnd>{End}</InspectionEnd><InspectionOperator><Name>A</Name></InspectionOperator></InspectionTraceability>
              <MeasuredFeatures><FeatureMeasurements n="1"><CylinderFeatureMeasurement id="52"><FeatureItemId>51</FeatureItemId><Axis><AxisPoint>0.003 450.004 0</AxisPoint><Direction>0 0 1</Direction></Axis></CylinderFeatureMeasurement></FeatureMeasurements></MeasuredFeatures>
              <MeasuredCharacteristics><CharacteristicMeasurements n="1">{Measurements}</CharacteristicMeasurements></MeasuredCharacteristics>
              <InspectionStatus><InspectionStatusEnum>UNKNOWN</InspectionStatusEnum></InspectionStatus>
              <ActualComponentIds n="1"><Id>70</Id></ActualComponentIds>
            </MeasurementResults></MeasurementResultsSet>
            <ActualComponentSets n="1"><ActualComponentSet n="1"><ActualComponent id="70">{Serial}{Traceability}</ActualComponent></ActualComponentSet></ActualComponentSets>
          </Results>
        </QIFDocument>
        """);
}
