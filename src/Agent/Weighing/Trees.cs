using System.Globalization;

namespace CaptureAgent.Agent.Weighing;

/// <summary>A sum of regression trees: each asks one number after the other whether it is greater than a threshold, and adds the value of the leaf that it ends at.</summary>
/// <remarks>Gradient boosting (Friedman 2001, Annals of Statistics 29, 1189–1232, from memory) made them; here they are only read and walked.</remarks>
internal sealed class Trees
{
    private readonly Node[] nodes;
    private readonly int[] roots;

    private Trees(Node[] nodes, int[] roots) => (this.nodes, this.roots) = (nodes, roots);

    /// <summary>Numbers that are asked for.</summary>
    public int Features { get; private init; }

    /// <param name="text">
    /// A line a node, tab-separated: number of the tree, number of the feature, threshold, and the lines within its tree of the next node where the number is not greater, and
    /// where it is; or number of the tree, <c>leaf</c>, value. Lines that begin with <c>#</c> say something.
    /// </param>
    /// <exception cref="FormatException">A line is none of these, or names a node that is not there.</exception>
    public static Trees Read(TextReader text)
    {
        List<Node> nodes = [];
        List<int> roots = [];
        var features = 0;
        for (var number = 1; text.ReadLine() is { } line; number++)
        {
            if (line.StartsWith('#') || line.Length == 0)
                continue;
            var cells = line.Split('\t');
            var tree = Whole(cells, 0, number);
            if (tree == roots.Count)
                roots.Add(nodes.Count);
            else if (tree != roots.Count - 1)
                throw new FormatException($"Line {number} of the trees: tree {tree} follows tree {roots.Count - 1}.");
            var root = roots[^1];
            if (cells.Length == 3 && cells[1] == "leaf")
            {
                nodes.Add(new Node(-1, Number(cells, 2, number), 0, 0));
                continue;
            }

            var feature = Whole(cells, 1, number);
            features = Math.Max(features, feature + 1);
            nodes.Add(new Node(feature, Number(cells, 2, number), root + Whole(cells, 3, number), root + Whole(cells, 4, number)));
        }

        // A node leads on, so that every walk ends.
        for (var i = 0; i < nodes.Count; i++)
        {
            if (nodes[i] is { Feature: >= 0 } node && (node.Lower <= i || node.Upper <= i || Math.Max(node.Lower, node.Upper) >= nodes.Count))
                throw new FormatException($"Node {i} of the trees leads to none that follows it.");
        }

        return new Trees([.. nodes], [.. roots]) { Features = features };
    }

    /// <summary>Sum over all trees.</summary>
    public double Sum(ReadOnlySpan<float> features)
    {
        var sum = 0.0;
        foreach (var root in roots)
        {
            var at = root;
            while (nodes[at].Feature >= 0)
                at = features[nodes[at].Feature] > nodes[at].Value ? nodes[at].Upper : nodes[at].Lower;
            sum += nodes[at].Value;
        }

        return sum;
    }

    private static int Whole(string[] cells, int column, int line) =>
        column < cells.Length && int.TryParse(cells[column], NumberStyles.None, CultureInfo.InvariantCulture, out var value)
            ? value
            : throw new FormatException($"Line {line} of the trees: column {column + 1} is no whole number.");

    private static float Number(string[] cells, int column, int line) =>
        column < cells.Length && float.TryParse(cells[column], NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            ? value
            : throw new FormatException($"Line {line} of the trees: column {column + 1} is no number.");

    /// <param name="Feature">That is asked; -1: a leaf.</param>
    /// <param name="Value">Threshold, or the leaf's value.</param>
    private readonly record struct Node(int Feature, float Value, int Lower, int Upper);
}
