using System.Globalization;
using System.Text;
using CaptureAgent.Agent.Weighing;
using Microsoft.ML.Trainers.FastTree;
using Microsoft.ML.Trainers.LightGbm;

namespace CaptureAgent.Benchmarks.Trees;

/// <summary>Fitted trees as <see cref="Agent.Weighing.Trees.Read"/> takes them.</summary>
internal static class TreesFile
{
    /// <param name="rows">Evaluations that they were fitted to.</param>
    /// <param name="placings">That those are of.</param>
    public static string Text(LightGbmBinaryModelParameters model, int rows, int placings)
    {
        var text = new StringBuilder();
        text.Append("# Log odds that a weight would be a wrong record. Written by `dotnet run -c Release --project tests/Benchmarks -- trees`.\n");
        text.Append(CultureInfo.InvariantCulture, $"# Fitted to {rows} evaluations of {placings} simulated placings. Features, counted from 0: {string.Join(", ", Signs.Names)}.\n");
        text.Append("# tree, feature, threshold, next node of the tree where not greater, and where greater; or tree, leaf, value.\n");
        for (var tree = 0; tree < model.TrainedTreeEnsemble.Trees.Count; tree++)
            Append(text, tree, model.TrainedTreeEnsemble.Trees[tree], model.TrainedTreeEnsemble.TreeWeights[tree]);
        return text.ToString();
    }

    // The root first; children follow their parents.
    private static void Append(StringBuilder text, int number, RegressionTreeBase tree, double weight)
    {
        List<int> nodes = [0];
        for (var i = 0; i < nodes.Count; i++)
        {
            var node = nodes[i];
            if (node < 0)
            {
                text.Append(CultureInfo.InvariantCulture, $"{number}\tleaf\t{(float)(tree.LeafValues[~node] * weight)}\n");
                continue;
            }

            text.Append(CultureInfo.InvariantCulture, $"{number}\t{tree.NumericalSplitFeatureIndexes[node]}\t{tree.NumericalSplitThresholds[node]}\t{nodes.Count}\t{nodes.Count + 1}\n");
            nodes.Add(tree.LeftChild[node]);
            nodes.Add(tree.RightChild[node]);
        }
    }
}
