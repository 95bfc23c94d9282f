using System.Reflection;
using ClimateGuard.Plant;
using ClimateGuard.Tests.Support;
using ClimateGuard.Watch;

namespace ClimateGuard.Tests.House;

/// <summary>An interface exists only at a real seam; what is said of the cell never changes.</summary>
public sealed class SeamsTests
{
    private static readonly string[] Seams = [nameof(IReadingSource), nameof(IReadingStore), nameof(ILedgerStore), nameof(IAlertChannel)];

    [Fact]
    public void The_only_interfaces_are_the_four_ports_of_the_loop()
    {
        var interfaces = Directory.GetFiles(AppContext.BaseDirectory, "*.dll")
            .Where(file => Path.GetFileName(file).StartsWith("ClimateGuard.", StringComparison.Ordinal) || Path.GetFileName(file) == "climateguard.dll")
            .Where(file => !Path.GetFileName(file).Contains("Tests", StringComparison.Ordinal))
            .SelectMany(file => Assembly.LoadFrom(file).GetTypes())
            .Where(type => type.IsInterface && type.Namespace?.StartsWith("ClimateGuard", StringComparison.Ordinal) == true)
            .Select(type => type.Name);

        Assert.Equal(Seams.Order(), interfaces.Order());
    }

    [Fact]
    public void Nothing_in_the_vocabulary_can_be_changed_after_it_was_made()
    {
        var changeable = from type in typeof(Cell).Assembly.GetExportedTypes()
                         from property in type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
                         let setter = property.SetMethod
                         where setter is { IsPublic: true } && !setter.ReturnParameter.GetRequiredCustomModifiers().Any(IsInit)
                         select $"{type.Name}.{property.Name}";

        Assert.Empty(changeable);
    }

    [Fact]
    public void Every_published_check_names_its_source()
    {
        var without = Repository.SourceFiles("tests").Where(file => file.Contains("Published", StringComparison.Ordinal))
            .Where(file => !File.ReadAllText(file).Contains("/// <summary>", StringComparison.Ordinal))
            .Select(file => Path.GetRelativePath(Repository.Root, file));

        Assert.Empty(without);
    }

    private static bool IsInit(Type modifier) => modifier.FullName == "System.Runtime.CompilerServices.IsExternalInit";
}
