using System.CommandLine;
using ClimateGuard.Edges.Files;
using ClimateGuard.Edges.PlantFile;
using ClimateGuard.Thermal;
using ClimateGuard.Watch;
using ClimateGuard.Worker.Pages.Words;
using ClimateGuard.Worker.Settings;

namespace ClimateGuard.Worker.Commands;

/// <summary><c>climateguard evaluate</c>: one case from a file, by the same code that watches the machines.</summary>
internal static class EvaluateCommand
{
    private static readonly Option<string> CaseFile = new("--case") { Description = "The case, a JSON file.", HelpName = "FILE", Required = true };

    public static Command Create()
    {
        var command = new Command("evaluate", "The effect, uncertainty, budget, probability and answer of one case; no store, no broker.\n\n"
            + "Example: climateguard evaluate --plant config/plant.yaml --case case.json\n"
            + "case.json: {\"machine\":\"M3\",\"part\":\"FD-1100\",\"plannedMinutes\":35,\n"
            + "            \"state\":{\"partC\":21.5,\"partU\":0.1,\"scaleC\":20.0,\"scaleU\":0.1,\"airC\":20.0}}") { CommandLine.Plant, CaseFile };
        command.SetAction(parsed => Run(
            ShippedFiles.Plant(parsed.GetValue(CommandLine.Plant)), parsed.GetRequiredValue(CaseFile), parsed.GetValue(CommandLine.Json)));
        return command;
    }

    private static int Run(string plantFile, string caseFile, bool json)
    {
        var plant = PlantFileReader.Read(plantFile);
        if (plant.Cell is not { } cell)
        {
            return CommandLine.Refuse(plant.Problems.Select(problem => problem.ToString()));
        }

        var read = CaseFileReader.Read(caseFile, cell);
        if (read.Case is not { } stated)
        {
            return CommandLine.Refuse(read.Problems);
        }

        var model = new ThermalModel(stated.Machine, stated.Part, reference: cell.Description.Reference);
        var risks = FinishCutRisk.Over(model, model.StateOf(stated.Temperatures), stated.Cut, cell.Description.Policies);
        if (json)
        {
            Console.Out.WriteLine(CaseResultJson.Text(stated, risks, model));
        }
        else
        {
            Print(stated, risks);
        }

        return CommandLine.Done;
    }

    private static void Print(StatedCase stated, IReadOnlyList<FeatureRisk> risks)
    {
        Console.Out.WriteLine($"{stated.Part.Number} on {stated.Machine.Id}: {CaseResultJson.Overall(risks).Word()}");
        foreach (var risk in risks)
        {
            Console.Out.WriteLine(
                $"  {risk.Answer.Word(),-8} {FeatureName.Of(risk.Feature)}: {Words.Micrometres(risk.Now.EffectMicrometres)} now, "
                + $"{Words.Micrometres(risk.Worst.EffectMicrometres)} at worst, u {Words.Micrometres(risk.Worst.UMicrometres)}, "
                + $"budget {Words.Micrometres(risk.BudgetMicrometres)}; exceeds in {FrequencyWords.Of(risk.Probability)}");
        }
    }
}
