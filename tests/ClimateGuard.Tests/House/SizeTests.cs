using ClimateGuard.Tests.Support;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using Microsoft.CodeAnalysis.CSharp.Syntax;

namespace ClimateGuard.Tests.House;

/// <summary>Small files, short methods, plain names, no silenced warnings.</summary>
public sealed class SizeTests
{
    private const int MostLinesOfFile = 300;
    private const int MostLinesOfMethod = 40;

    private static readonly string[] ForbiddenEndings = ["Manager", "Helper", "Helpers", "Util", "Utils", "Utility", "Common"];

    [Fact]
    public void No_source_file_is_longer_than_300_lines()
    {
        var tooLong = Repository.SourceFiles("src").Select(file => (file, lines: File.ReadAllLines(file).Length))
            .Where(pair => pair.lines > MostLinesOfFile).Select(pair => $"{Short(pair.file)}: {pair.lines}");

        Assert.Empty(tooLong);
    }

    [Fact]
    public void No_method_is_longer_than_40_lines()
    {
        var tooLong = from file in Repository.SourceFiles("src")
                      let tree = CSharpSyntaxTree.ParseText(File.ReadAllText(file))
                      from method in tree.GetRoot().DescendantNodes().Where(node => node is BaseMethodDeclarationSyntax or LocalFunctionStatementSyntax)
                      let lines = LinesOf(tree, method)
                      where lines > MostLinesOfMethod
                      select $"{Short(file)}:{tree.GetLineSpan(method.Span).StartLinePosition.Line + 1}: {lines}";

        Assert.Empty(tooLong);
    }

    [Fact]
    public void No_type_is_a_drawer()
    {
        var drawers = from file in Repository.SourceFiles("src").Concat(Repository.SourceFiles("tests"))
                      let tree = CSharpSyntaxTree.ParseText(File.ReadAllText(file))
                      from type in tree.GetRoot().DescendantNodes().OfType<BaseTypeDeclarationSyntax>()
                      where ForbiddenEndings.Any(ending => type.Identifier.Text.EndsWith(ending, StringComparison.Ordinal))
                      select $"{Short(file)}: {type.Identifier.Text}";

        Assert.Empty(drawers);
    }

    [Fact]
    public void No_warning_is_switched_off_in_the_source()
    {
        var silenced = from file in Repository.SourceFiles("src").Concat(Repository.SourceFiles("tests"))
                       let lines = File.ReadAllLines(file)
                       from line in lines
                       where line.TrimStart().StartsWith("#pragma warning", StringComparison.Ordinal)
                       select $"{Short(file)}: {line.Trim()}";

        Assert.Empty(silenced);
    }

    private static int LinesOf(SyntaxTree tree, SyntaxNode method)
    {
        var span = tree.GetLineSpan(method.Span);
        return span.EndLinePosition.Line - span.StartLinePosition.Line + 1;
    }

    private static string Short(string file) => Path.GetRelativePath(Repository.Root, file);
}
