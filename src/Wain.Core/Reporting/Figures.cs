using System.Collections.Immutable;
using System.Runtime.InteropServices;

namespace Wain.Core.Reporting;

/// <summary>
/// The program's own figure for every cell of a set of tables. Each cell is evaluated once; sums by key are indexed, so that ten thousand rows that
/// each sum over ten thousand others stay linear.
/// </summary>
public sealed class Figures
{
    private readonly Dictionary<string, Sheet> _sheets = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Table, string KeyColumn, string Column), Dictionary<string, CellValue>> _sums = [];
    private readonly Dictionary<(string Table, string KeyColumn), Dictionary<string, int>> _rowsByKey = [];

    /// <exception cref="ArgumentException">A key is malformed or stands twice, or a row has the wrong number of cells: a fault of who made the table.</exception>
    public Figures(ImmutableArray<Table> tables)
    {
        foreach (var table in tables)
        {
            TableRules.Check(table);
            if (!_sheets.TryAdd(table.Key, new Sheet(table))) throw new ArgumentException($"Two tables are called {table.Key}.");
        }
    }

    /// <summary>The figure in one cell; row <c>Table.Rows.Length</c> is the totals row.</summary>
    /// <exception cref="ArgumentException">A formula names a cell that is not there, or depends on itself.</exception>
    public CellValue this[string table, int row, int column]
    {
        get
        {
            var sheet = Find(table);
            ref var slot = ref sheet.Slots[row * sheet.Table.Columns.Length + column];
            if (slot.State == SlotState.Done) return slot.Value;
            if (slot.State == SlotState.Busy) throw new ArgumentException($"The formula in {table}, row {sheet.RowKey(row)}, column {sheet.Table.Columns[column].Key} depends on itself.");
            slot.State = SlotState.Busy;
            var value = sheet.Cell(row, column) switch
            {
                Cell.Words words => CellValue.Of(words.Value),
                Cell.Number number => CellValue.Of(CellValue.Rounded(number.Value)),
                Cell.Date date => CellValue.Of(CellValue.Serial(date.Value)),
                Cell.Live live => NotBlank(Evaluate(live.Formula, sheet, row)),
                _ => CellValue.Blank,
            };
            slot = new Slot(SlotState.Done, value);
            return value;
        }
    }

    public CellValue this[string table, string row, string column] => this[table, Find(table).RowIndex(row), Find(table).Table.ColumnIndex(column)];

    // A formula that refers to an empty cell shows 0 in every spreadsheet.
    private static CellValue NotBlank(CellValue value) => value.Kind == CellValueKind.Blank ? CellValue.Of(0) : value;

    private CellValue Evaluate(Formula formula, Sheet sheet, int row)
    {
        switch (formula)
        {
            case Formula.Constant constant:
                return CellValue.Of(CellValue.Rounded(constant.Value));
            case Formula.Text text:
                return CellValue.Of(text.Value);
            case Formula.Here here:
                int column = sheet.Table.ColumnIndex(here.Column);
                var own = this[sheet.Table.Key, row, column];
                bool isNote = sheet.Table.Columns[column].Kind == ColumnKind.Builder && own.Kind == CellValueKind.Text;
                return isNote ? CellValue.Of(0) : own;
            case Formula.At at:
                return this[at.Table, at.Row, at.Column];
            case Formula.Sum sum:
                return SumOf(sum.Table ?? sheet.Table.Key, sum.Column);
            case Formula.SumIf sumIf:
                return ByKey(Evaluate(sumIf.Key, sheet, row), key => SumsByKey(sumIf.Table, sumIf.KeyColumn, sumIf.Column).GetValueOrDefault(key, CellValue.Of(0)));
            case Formula.CountIf countIf:
                return ByKey(Evaluate(countIf.Key, sheet, row), key => SumsByKey(countIf.Table, countIf.KeyColumn, "").GetValueOrDefault(key, CellValue.Of(0)));
            case Formula.Lookup lookup:
                return ByKey(Evaluate(lookup.Key, sheet, row), key => RowsByKey(lookup.Table, lookup.KeyColumn).TryGetValue(key, out int found)
                    ? this[lookup.Table, found, Find(lookup.Table).Table.ColumnIndex(lookup.Column)]
                    : CellValue.NotFound);
            case Formula.Binary binary:
                return Combine(Evaluate(binary.Left, sheet, row), Evaluate(binary.Right, sheet, row), (left, right) => binary.Sign switch
                {
                    Formula.Operator.Add => CellValue.Of(left + right),
                    Formula.Operator.Subtract => CellValue.Of(left - right),
                    Formula.Operator.Multiply => CellValue.Of(left * right),
                    _ => right == 0 ? CellValue.DivisionByZero : CellValue.Of(left / right),
                });
            case Formula.RoundUp up:
                return Combine(Evaluate(up.Value, sheet, row), CellValue.Blank, (value, _) => CellValue.Of(value < 0 ? Math.Floor(value) : Math.Ceiling(value)));
            case Formula.Round round:
                return Combine(Evaluate(round.Value, sheet, row), CellValue.Blank, (value, _) => CellValue.Of(RoundHalfAway(value, round.Digits)));
            case Formula.Extreme extreme:
                return Combine(Evaluate(extreme.Left, sheet, row), Evaluate(extreme.Right, sheet, row),
                    (left, right) => CellValue.Of(extreme.Largest ? Math.Max(left, right) : Math.Min(left, right)));
            case Formula.If choice:
                var test = Combine(Evaluate(choice.Left, sheet, row), Evaluate(choice.Right, sheet, row), (left, right) => CellValue.Of(Holds(choice.Holds, left, right) ? 1 : 0));
                return test.Kind == CellValueKind.Error ? test : Evaluate(test.Number != 0 ? choice.Then : choice.Else, sheet, row);
            default:
                throw new ArgumentException($"No reading for {formula.GetType().Name}.");
        }
    }

    private static bool Holds(Formula.Test test, double left, double right) => test switch
    {
        Formula.Test.Equal => left == right,
        Formula.Test.NotEqual => left != right,
        Formula.Test.Less => left < right,
        Formula.Test.LessOrEqual => left <= right,
        Formula.Test.Greater => left > right,
        _ => left >= right,
    };

    private static CellValue Combine(CellValue left, CellValue right, Func<double, double, CellValue> apply) =>
        left.Kind == CellValueKind.Error ? left
        : right.Kind == CellValueKind.Error ? right
        : left.Kind == CellValueKind.Text || right.Kind == CellValueKind.Text ? CellValue.WrongKind
        : apply(left.Number, right.Number);

    // Spreadsheets round the 15 digits that they show, not the binary value: 1.005 to two places is 1.01. A decimal made from a double has those digits.
    internal static double RoundHalfAway(double value, int digits) =>
        Math.Abs(value) < 1e15 ? (double)Math.Round((decimal)value, digits, MidpointRounding.AwayFromZero) : value;

    private static CellValue ByKey(CellValue key, Func<string, CellValue> find) => key.Kind == CellValueKind.Error ? key : find(key.ToString());

    private CellValue SumOf(string table, string column)
    {
        var sheet = Find(table);
        int index = sheet.Table.ColumnIndex(column);
        var total = CellValue.Of(0);
        for (int row = 0; row < sheet.Table.Rows.Length; row++) total = Add(total, this[table, row, index]);
        return total;
    }

    private static CellValue Add(CellValue total, CellValue next) =>
        total.Kind == CellValueKind.Error ? total : next.Kind switch
        {
            CellValueKind.Error => next,
            CellValueKind.Number => CellValue.Of(total.Number + next.Number),
            _ => total,
        };

    private Dictionary<string, CellValue> SumsByKey(string table, string keyColumn, string column)
    {
        if (_sums.TryGetValue((table, keyColumn, column), out var sums)) return sums;
        var sheet = Find(table);
        int key = sheet.Table.ColumnIndex(keyColumn), value = column.Length == 0 ? -1 : sheet.Table.ColumnIndex(column);
        sums = new Dictionary<string, CellValue>(StringComparer.Ordinal);
        for (int row = 0; row < sheet.Table.Rows.Length; row++)
        {
            ref var total = ref CollectionsMarshal.GetValueRefOrAddDefault(sums, this[table, row, key].ToString(), out bool known);
            // The figure is read first: evaluating it may itself fill other sums, but never this dictionary, which is not yet published.
            var next = value < 0 ? CellValue.Of(1) : this[table, row, value];
            total = Add(known ? total : CellValue.Of(0), next);
        }
        return _sums[(table, keyColumn, column)] = sums;
    }

    private Dictionary<string, int> RowsByKey(string table, string keyColumn)
    {
        if (_rowsByKey.TryGetValue((table, keyColumn), out var rows)) return rows;
        var sheet = Find(table);
        int key = sheet.Table.ColumnIndex(keyColumn);
        rows = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int row = 0; row < sheet.Table.Rows.Length; row++) rows[this[table, row, key].ToString()] = row;
        return _rowsByKey[(table, keyColumn)] = rows;
    }

    private Sheet Find(string table) => _sheets.TryGetValue(table, out var sheet) ? sheet : throw new ArgumentException($"There is no table {table}.");

    private enum SlotState : byte
    {
        New,
        Busy,
        Done,
    }

    private record struct Slot(SlotState State, CellValue Value);

    private sealed class Sheet(Table table)
    {
        private Dictionary<string, int>? _rowIndex;

        public Table Table { get; } = table;

        public Slot[] Slots { get; } = new Slot[(table.Rows.Length + 1) * table.Columns.Length];

        public Cell Cell(int row, int column) =>
            row < Table.Rows.Length ? Table.Rows[row].Cells[column] : Table.Totals is { } totals ? totals.Cells[column] : Reporting.Cell.Empty;

        public string RowKey(int row) => row < Table.Rows.Length ? Table.Rows[row].Key : Table.TotalsKey;

        public int RowIndex(string key)
        {
            if (_rowIndex is null)
            {
                _rowIndex = new Dictionary<string, int>(StringComparer.Ordinal);
                for (int i = 0; i < Table.Rows.Length; i++) _rowIndex[Table.Rows[i].Key] = i;
                _rowIndex.TryAdd(Table.TotalsKey, Table.Rows.Length);
            }
            return _rowIndex.TryGetValue(key, out int row) ? row : throw new ArgumentException($"Table {Table.Key} has no row {key}.");
        }
    }
}
