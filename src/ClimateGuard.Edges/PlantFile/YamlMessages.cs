namespace ClimateGuard.Edges.PlantFile;

/// <summary>Every sentence about the text of a file, in alphabetical order.</summary>
internal static class YamlMessages
{
    public static string ControlCharacter(char character) =>
        $"the character U+{(int)character:X4} cannot stand in a text file; delete it, or save the file as plain text in UTF-8";

    public static string Empty() =>
        "the file is empty: nothing is described; begin with version: 1 and cell: (see config/plant.yaml)";

    public static string KeyNotPlain() => "a key must be a single word before its colon, not a list, a mapping or an alias";

    public static string KeyTwice(string key, int firstLine) =>
        $"key '{key}' stands twice; the first is in line {firstLine}; keep one of them";

    public static string Missing(string file) => $"there is no file {file}; check the path, or create the file from config/plant.yaml";

    public static string NotUtf8() => "the file is not UTF-8 from here on; save it as UTF-8";

    public static string NoValue() => "a value is expected here, and the list or mapping ends instead; write the value, or delete the key";

    public static string NotYaml(string said) =>
        $"this is not YAML: {char.ToLowerInvariant(said[0])}{said[1..].TrimEnd('.')}; often an indentation, a missing space after a colon, " +
        "or a quote or bracket left open";

    public static string SecondDocument() => "a second document begins here (---); a file holds one";

    public static string Tab() => "a tab indents this line; YAML indents with spaces only: replace the tab by spaces";

    public static string TooBig(long bytes, int limit) =>
        $"the file has {bytes} bytes; allowed: at most {limit / 1024 / 1024} MB; is this the right file?";

    public static string TooDeep(int limit) => $"more than {limit} levels inside one another; a plant file needs fewer";

    public static string TooManyNodes(int limit) => $"more than {limit} values, aliases written out; a plant file needs fewer";

    public static string Unreadable(string why) => $"the file cannot be read: {why.TrimEnd('.')}; check that the worker's user may read it";

    public static string UnknownAlias(string name) => $"alias *{name} has no anchor &{name} that ends before it";

    public static string UnknownTag(string tag) => $"tag {tag} is not known here; write the value without it";
}
