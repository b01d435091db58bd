package design

import (
	"reflect"
	"strings"
	"testing"
)

func paste(t *testing.T, path, text string) Pasted {
	t.Helper()
	p, err := Paste(path, text, ListedTable{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPasteProfile(t *testing.T) {
	p := paste(t, "bottle.profile", "z [mm]\tr [mm]\n0\t25,5\n288\t13,1\n")
	want := ListedTable{Columns: []string{"z mm", "r mm"}, Rows: [][]string{{"0", "25.5"}, {"288", "13.1"}}}
	if len(p.Faults) > 0 || !reflect.DeepEqual(p.Table, want) {
		t.Errorf("%+v", p)
	}
	if len(p.Notes) != 1 || !strings.Contains(p.Notes[0], "comma") {
		t.Errorf("notes %q", p.Notes)
	}
}

// A text without heading has the columns that the reader sees.
func TestPasteWithoutHeading(t *testing.T) {
	p, err := Paste("oven.zones", "1\t60\n2\t50\n", ListedTable{Columns: []string{"zone", "power %"}})
	if err != nil || len(p.Faults) > 0 {
		t.Fatal(err, p.Faults)
	}
	if got := strings.Join(p.Table.Columns, "|"); got != "zone|power %" || p.Table.Rows[1][1] != "50" {
		t.Errorf("%+v", p.Table)
	}
	p, _ = Paste("bottle.planes", "60\t190\n", ListedTable{Columns: []string{"planes mm"}})
	if len(p.Faults) > 0 || len(p.Table.Rows) != 2 {
		t.Errorf("a list copied across: %+v", p)
	}
}

// A selection of a spreadsheet may end with an empty column.
func TestPasteEmptyColumn(t *testing.T) {
	p := paste(t, "oven.zones", "\tzone\t\tpower [%]\t\n\t1\t\t60\t\n\t2\t\tx\t\n")
	want := ListedTable{Columns: []string{"zone", "power %"}, Rows: [][]string{{"1", "60"}, {"2", "x"}}}
	if !reflect.DeepEqual(p.Table, want) {
		t.Errorf("%+v", p.Table)
	}
	if len(p.Faults) != 1 || p.Faults[0].Row != 1 || p.Faults[0].Column != 1 {
		t.Errorf("%+v", p.Faults)
	}
}

// Every wrong cell is told at once, with its place.
func TestPasteFaults(t *testing.T) {
	p := paste(t, "oven.zones", "zone;power [%]\n1;60\ntwo;50\n3;120\n4;\n5;50;9\n6;x\n")
	var at []string
	for _, f := range p.Faults {
		at = append(at, string(rune('0'+f.Row))+string(rune('0'+f.Column)))
		if f.Line != f.Row+2 || f.Message == "" || f.Expected == "" {
			t.Errorf("%+v", f)
		}
	}
	if got := strings.Join(at, " "); got != "10 21 31 42 51" {
		t.Errorf("faults at %s: %v", got, p.Faults)
	}
	for text, want := range map[string]string{
		"z\tr\n1\t2\n":                   "no unit",
		"z mm\tradius mm\n1\t2\n":        "no column",
		"z kg\tr mm\n1\t2\n":             "no unit of length",
		"z mm\tz mm\tr mm\n1\t2\t3\n":    "twice",
		"z mm\n1\n":                      "missing",
		"z mm\tr mm\n":                   "heading only",
		"":                               "nothing to read",
		"z mm\tr mm\n1.234,5,6\t2\n":     "separators",
		"z mm\tr mm\n\"1\t2\n":           "quote",
		"z mm\t\tr mm\n1\t5\t2\n":        "no heading",
		"z mm\tr mm\tvia\n1\t2\tline kg": "",
	} {
		p := paste(t, "bottle.profile", text)
		found := want == "" && len(p.Faults) == 0
		for _, f := range p.Faults {
			found = found || want != "" && strings.Contains(f.Message, want)
		}
		if !found {
			t.Errorf("%q: want %q, got %v", text, want, p.Faults)
		}
	}
	if _, err := Paste("preform.wall", "1", ListedTable{}); err == nil {
		t.Error("a single value is no table")
	}
	if _, err := Paste("preform.wal", "1", ListedTable{}); err == nil {
		t.Error("an unknown path is taken")
	}
}

// A table is written in the way the document writes it; the rest stays.
func TestSetTable(t *testing.T) {
	head := minimal("csd-1500")
	zones := "zone\tpower [%]\n1\t61\n2\t51,5\n"
	for name, c := range map[string]struct{ path, text, value, want string }{
		"absent":     {"oven.zones", head, zones, "oven:\n  zones:\n    columns: [zone, power %]\n    rows:\n      - [1, 61]\n      - [2, 51.5]\n"},
		"table":      {"oven.zones", head + "oven:\n  zones:   # from the line\n    columns: [zone, power %]\n    rows:\n      - [1, 1]\n  overall: 70 %\n", zones, "oven:\n  zones:   # from the line\n    columns: [zone, power %]\n    rows:\n      - [1, 61]\n      - [2, 51.5]\n  overall: 70 %\n"},
		"in braces":  {"oven.zones", head + "oven: {zones: {columns: [zone, power %], rows: [[1, 1]]}, overall: 70 %}\n", zones, "oven: {zones: {columns: [zone, power %], rows: [[1, 61], [2, 51.5]]}, overall: 70 %}\n"},
		"list":       {"bottle.planes", head + "bottle:\n  planes: [60 mm, 190 mm]  # cuts\n", "planes mm\n61\n191\n", "  planes: [61 mm, 191 mm]  # cuts\n"},
		"block list": {"bottle.planes", head + "bottle:\n  planes:\n    - 60 mm\n    - 190 mm\n", "planes mm\n61\n191\n", "  planes:\n    - 61 mm\n    - 191 mm\n"},
		"empty":      {"bottle.planes", head + "bottle:\n  planes:\n", "planes mm\n61\n191\n", "  planes: [61 mm, 191 mm]\n"},
		"entries":    {"limits", head + "limits:\n  - {figure: preform.mass, side: max, value: \"39.0 g\", owner: purchasing}\n", "figure;side;value\nwall.min;min;0,2 mm\n", "limits:\n  - {figure: wall.min, side: min, value: 0.2 mm}\n"},
		"no end":     {"bottle.planes", head + "bottle:\n  planes:\n    - 60 mm\n    - 190 mm", "planes mm\n61\n191\n", "    - 61 mm\n    - 191 mm"},
		"taken out":  {"bottle.planes", head + "bottle:\n  planes: [60 mm, 190 mm]\n", "", head},
		"crlf":       {"oven.zones", strings.ReplaceAll(head+"oven:\n  zones:\n    columns: [zone, power %]\n    rows:\n      - [1, 1]\n", "\n", "\r\n"), zones, "rows:\r\n      - [1, 61]\r\n      - [2, 51.5]\r\n"},
	} {
		out, err := Set(c.text, c.path, c.value)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if !strings.HasSuffix(out, c.want) {
			t.Errorf("%s:\n%s", name, out)
		}
		if _, err := Load("", out); err != nil && name != "entries" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Set(head, "oven.zones", "zone\tpower [%]\nx\ty\n"); err == nil || strings.Count(err.Error(), "line 2") != 2 {
		t.Errorf("faulty cells: %v", err)
	}
}

// What a listing shows can be written back.
func TestTSV(t *testing.T) {
	doc, err := Load("", minimal("csd-1500"))
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range doc.Listing("us") {
		if l.Table == nil || len(l.Table.Rows) == 0 {
			continue
		}
		out, err := Set(minimal("csd-1500"), l.Path, l.Table.TSV())
		if err != nil {
			t.Errorf("%s: %v", l.Path, err)
			continue
		}
		if _, err := Load("", out); err != nil {
			t.Errorf("%s: %v", l.Path, err)
		}
	}
}

func FuzzPaste(f *testing.F) {
	for _, s := range []string{"z mm\tr mm\n0\t25,5\n", "zone;power [%]\n1;60\n", "\"", "planes mm\n60\n", "a,b\n1,2,3\n"} {
		f.Add(s)
	}
	text := minimal("csd-1500")
	f.Fuzz(func(t *testing.T, s string) {
		for _, path := range []string{"bottle.profile", "oven.zones", "bottle.planes", "limits"} {
			p, err := Paste(path, s, ListedTable{})
			if err != nil {
				t.Fatal(err)
			}
			if len(p.Faults) > 0 {
				continue
			}
			if out, err := Set(text, path, p.Table.TSV()); err == nil {
				if out, err = Set(out, path, ""); err != nil || out != text {
					t.Fatalf("%s: taken out again: %v\n%s", path, err, out)
				}
			}
		}
	})
}
