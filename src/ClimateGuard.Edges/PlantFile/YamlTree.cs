using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace ClimateGuard.Edges.PlantFile;

/// <summary>Reads one YAML document into a tree in which each key and value knows its line.</summary>
/// <remarks>Bounded: 500 000 values with aliases written out, 32 levels. One instance reads one text.</remarks>
internal sealed class YamlTree
{
    private const int MaxNodes = 500_000;
    private const int MaxDepth = 32;
    private const string CoreTags = "tag:yaml.org,2002:";

    private readonly string file;
    private readonly string text;
    private readonly Parser parser;
    private readonly List<LocatedProblem> problems = [];
    private readonly Dictionary<string, Anchored> anchors = new(StringComparer.Ordinal);
    private int nodes;

    private YamlTree(string file, string text)
    {
        this.file = file;
        this.text = text;
        parser = new Parser(new Scanner(new StringReader(text), skipComments: true));
    }

    /// <summary>The tree, or null when the text is empty or is not YAML; then there is at least one problem.</summary>
    public static (FileNode? Root, IReadOnlyList<LocatedProblem> Problems) Read(string file, string text)
    {
        var tree = new YamlTree(file, text);
        return (tree.Document(), tree.problems);
    }

    private FileNode? Document()
    {
        try
        {
            Next<StreamStart>();
            if (parser.Current is not DocumentStart)
            {
                problems.Add(new LocatedProblem(file, 0, 0, "", YamlMessages.Empty()));
                return null;
            }

            Next<DocumentStart>();
            var (root, _) = Node("", 1);
            Next<DocumentEnd>();
            if (parser.Current is DocumentStart second)
            {
                throw new TreeException(second.Start, "", YamlMessages.SecondDocument());
            }

            return root;
        }
        catch (TreeException stop)
        {
            problems.Add(new LocatedProblem(file, stop.Line, stop.Column, stop.Path, stop.Message));
        }
        catch (YamlException broken)
        {
            problems.Add(Broken((int)broken.Start.Line, (int)broken.Start.Column, broken.Message));
        }
        catch (Exception broken) when (broken is InvalidOperationException or ArgumentException or IndexOutOfRangeException)
        {
            // the scanner leaves some broken texts with an exception of no place: the last event is the nearest we know
            var last = parser.Current?.End ?? Mark.Empty;
            problems.Add(Broken((int)last.Line, (int)last.Column, "the text cannot be read on from here."));
        }

        return null;
    }

    private (FileNode Node, Anchored Size) Node(string path, int depth)
    {
        var at = parser.Current ?? throw new InvalidOperationException();
        if (depth > MaxDepth)
        {
            throw new TreeException(at.Start, path, YamlMessages.TooDeep(MaxDepth));
        }

        Count(1, at.Start, path);
        if (at is AnchorAlias alias)
        {
            return Alias(alias, path, depth);
        }

        if (at is not NodeEvent { Anchor: var anchor })
        {
            throw new TreeException(at.Start, path, YamlMessages.NoValue());
        }

        var before = nodes;
        var deepest = depth;
        FileNode node = at switch
        {
            Scalar scalar => Single(scalar, path),
            SequenceStart start => List(start, path, depth, ref deepest),
            MappingStart start => Map(start, path, depth, ref deepest),
            _ => throw new InvalidOperationException(),
        };
        var size = new Anchored(node, nodes - before + 1, deepest - depth);
        if (!anchor.IsEmpty)
        {
            anchors[anchor.Value] = size;
        }

        return (node, size);
    }

    private (FileNode Node, Anchored Size) Alias(AnchorAlias alias, string path, int depth)
    {
        if (!anchors.TryGetValue(alias.Value.Value, out var anchored))
        {
            throw new TreeException(alias.Start, path, YamlMessages.UnknownAlias(alias.Value.Value));
        }

        if (depth + anchored.Depth > MaxDepth)
        {
            throw new TreeException(alias.Start, path, YamlMessages.TooDeep(MaxDepth));
        }

        Count(anchored.Count - 1, alias.Start, path);
        Next<AnchorAlias>();
        return (anchored.Node, anchored);
    }

    private FileScalar Single(Scalar scalar, string path)
    {
        Next<Scalar>();
        var (line, column) = (Line(scalar.Start), Column(scalar.Start));
        var isPlain = scalar.Style == ScalarStyle.Plain;
        if (scalar.Tag.IsEmpty || scalar.Tag.IsNonSpecific)
        {
            return new FileScalar(line, column, scalar.Value, isPlain && scalar.Tag.IsEmpty);
        }

        return scalar.Tag.Value switch
        {
            CoreTags + "str" => new FileScalar(line, column, scalar.Value, false),
            CoreTags + "int" or CoreTags + "float" or CoreTags + "bool" or CoreTags + "null" =>
                new FileScalar(line, column, scalar.Value, true),
            var tag => throw new TreeException(scalar.Start, path, YamlMessages.UnknownTag(tag)),
        };
    }

    private FileList List(SequenceStart start, string path, int depth, ref int deepest)
    {
        RefuseTag(start, path);
        Next<SequenceStart>();
        var items = new List<FileNode>();
        while (parser.Current is not SequenceEnd)
        {
            var (item, size) = Node(FilePointer.Append(path, items.Count), depth + 1);
            deepest = Math.Max(deepest, depth + 1 + size.Depth);
            items.Add(item);
        }

        Next<SequenceEnd>();
        return new FileList(Line(start.Start), Column(start.Start), items);
    }

    private FileMap Map(MappingStart start, string path, int depth, ref int deepest)
    {
        RefuseTag(start, path);
        Next<MappingStart>();
        var entries = new Dictionary<string, FileEntry>(StringComparer.Ordinal);
        while (parser.Current is not MappingEnd)
        {
            if (parser.Current is not Scalar key)
            {
                throw new TreeException((parser.Current ?? start).Start, path, YamlMessages.KeyNotPlain());
            }

            Next<Scalar>();
            Count(1, key.Start, path);
            var inside = FilePointer.Append(path, key.Value);
            var (value, size) = Node(inside, depth + 1);
            deepest = Math.Max(deepest, depth + 1 + size.Depth);
            var entry = new FileEntry(key.Value, Line(key.Start), Column(key.Start), value);
            if (!entries.TryAdd(key.Value, entry))
            {
                problems.Add(new LocatedProblem(
                    file, entry.Line, entry.Column, inside, YamlMessages.KeyTwice(key.Value, entries[key.Value].Line)));
            }
        }

        Next<MappingEnd>();
        return new FileMap(Line(start.Start), Column(start.Start), [.. entries.Values]);
    }

    private static void RefuseTag(NodeEvent start, string path)
    {
        if (!start.Tag.IsEmpty && !start.Tag.IsNonSpecific && start.Tag.Value is not (CoreTags + "map" or CoreTags + "seq"))
        {
            throw new TreeException(start.Start, path, YamlMessages.UnknownTag(start.Tag.Value));
        }
    }

    private void Count(int more, Mark at, string path)
    {
        nodes += more;
        if (nodes > MaxNodes)
        {
            throw new TreeException(at, path, YamlMessages.TooManyNodes(MaxNodes));
        }
    }

    /// <summary>Goes past an event of the kind expected, so that <see cref="Parser.Current"/> is the one after it.</summary>
    private void Next<T>()
        where T : ParsingEvent
    {
        if (parser.Current is null)
        {
            parser.MoveNext();
        }

        if (parser.Current is not T)
        {
            throw new InvalidOperationException();
        }

        parser.MoveNext();
    }

    private LocatedProblem Broken(int line, int column, string said)
    {
        var lines = text.Split('\n');
        for (var i = 0; i < Math.Min(lines.Length, line + 1); i++)
        {
            var indent = lines[i].Length - lines[i].TrimStart(' ', '\t').Length;
            var tab = lines[i].AsSpan(0, indent).IndexOf('\t');
            if (tab >= 0 && lines[i].AsSpan(indent).TrimEnd() is { Length: > 0 } rest && rest[0] != '#')
            {
                return new LocatedProblem(file, i + 1, tab + 1, "", YamlMessages.Tab());
            }
        }

        return new LocatedProblem(file, Math.Max(1, line), Math.Max(1, column), "", YamlMessages.NotYaml(said));
    }

    private static int Line(Mark mark) => (int)mark.Line;

    private static int Column(Mark mark) => (int)mark.Column;

    /// <summary>A node with how many values it holds, itself included, and how many levels lie below it.</summary>
    private sealed record Anchored(FileNode Node, int Count, int Depth);

    private sealed class TreeException(Mark at, string path, string message) : Exception(message)
    {
        public int Line { get; } = (int)at.Line;

        public int Column { get; } = (int)at.Column;

        public string Path { get; } = path;
    }
}
