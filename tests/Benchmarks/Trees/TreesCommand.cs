using System.Globalization;
using CaptureAgent.Agent.Weighing;
using CaptureAgent.Benchmarks.Reporting;
using Microsoft.ML;
using Microsoft.ML.Data;
using Microsoft.ML.Trainers.LightGbm;

namespace CaptureAgent.Benchmarks.Trees;

/// <summary>Fits the trees that tell the chance of a wrong record (<see cref="WrongChance"/>), and writes them beside the source.</summary>
/// <remarks>Of seeds that `settle` is not judged on.</remarks>
internal static class TreesCommand
{
    /// <summary>So many are drawn as they come; a quarter as many more are made plain.</summary>
    public const int MostSeeds = 45;

    private const int Placings = 4000;
    private const int FirstSeed = 1001;
    private const int FirstPlainSeed = 2001;

    /// <param name="seeds">At most <see cref="MostSeeds"/>; a quarter as many more are made plain (<see cref="VariedPlacings.MakePlain"/>).</param>
    public static int Run(int seeds)
    {
        List<SettlingRow> rows = [];
        int[] drawn = [.. Enumerable.Range(FirstSeed, seeds), .. Enumerable.Range(FirstPlainSeed, (seeds + 3) / 4)];
        foreach (var seed in drawn)
        {
            rows.AddRange(SettlingRows.Of(Placings, (ulong)seed, isPlain: seed >= FirstPlainSeed));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"seed {seed}: {rows.Count} evaluations, {rows.Count(row => row.Wrong)} of them wrong"));
        }

        var (model, scores) = Fit(rows);
        var text = TreesFile.Text(model, rows.Count, drawn.Length * Placings);
        var read = Agent.Weighing.Trees.Read(new StringReader(text));
        var difference = rows.Zip(scores).Max(each => Math.Abs(read.Sum(each.First.Signs) - each.Second));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The file as it is read and the library's own sums differ by {difference:0.0e0} at most."));
        File.WriteAllText(Path.Combine(ResultFile.Root, "src", "Agent", "Weighing", "settling-trees.tsv"), text);
        return 0;
    }

    private static (LightGbmBinaryModelParameters Model, float[] Scores) Fit(List<SettlingRow> rows)
    {
        var context = new MLContext(seed: 1);
        var schema = SchemaDefinition.Create(typeof(SettlingRow));
        schema[nameof(SettlingRow.Signs)].ColumnType = new VectorDataViewType(NumberDataViewType.Single, Signs.Names.Length);
        var data = context.Data.LoadFromEnumerable(rows, schema);
        var fitted = context.BinaryClassification.Trainers.LightGbm(new LightGbmBinaryTrainer.Options
        {
            LabelColumnName = nameof(SettlingRow.Wrong),
            FeatureColumnName = nameof(SettlingRow.Signs),
            NumberOfIterations = 800,
            NumberOfLeaves = 31,
            LearningRate = 0.06,
            MinimumExampleCountPerLeaf = 200,
            Sigmoid = 1,
            Seed = 1,
            Deterministic = true,
            Booster = new GradientBooster.Options { L2Regularization = 1 },
        }).Fit(data);
        return (fitted.Model.SubModel, [.. fitted.Transform(data).GetColumn<float>("Score")]);
    }
}
