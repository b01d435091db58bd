package lab

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"costrel/unit"
)

func tallied(t *testing.T, tb *Table) {
	t.Helper()
	c := tb.Tally
	if c.Cells != c.Heading+c.Reading+c.Label+c.Missing+c.Note+c.Faulty {
		t.Errorf("%s: the tally does not add up: %+v", tb.File, c)
	}
}

func why(notes []Note) string {
	var out []string
	for _, n := range notes {
		out = append(out, fmt.Sprintf("%d %s", n.Line, n.Why))
	}
	return strings.Join(out, "\n")
}

// Everything a lab sends at once: text above, merged heading, a row of units,
// blank rows, decimal comma, a censored and a missing value, a mean row, a
// remark below.
func TestMessyTable(t *testing.T) {
	const file = "\xef\xbb\xbfTrial 12, rig 3;;;;\r\n" +
		";Top load;;Burst;\r\n" +
		"Bottle;old;new;old;new\r\n" +
		";N;kgf;bar(g);psi(g)\r\n" +
		"\r\n" +
		"1;276,0;27,3;10,27;134,9\r\n" +
		"2;1.272,5;26,5;10,41;>137,9\r\n" +
		";;;;\r\n" +
		"3;-;24,0 daN;n/a;\r\n" +
		"Mittelwert;274;26,5;10,34;136\r\n" +
		"* new bottle 2 reached the stop of the rig;;;;\r\n"
	tb, err := Read("messy.csv", []byte(file), "")
	if err != nil {
		t.Fatal(err)
	}
	tallied(t, tb)
	if tb.Sheet != "tests" || tb.Separator != ";" || !tb.Comma || len(tb.Rows) != 3 || len(tb.Readings) != 9 || len(tb.Missing) != 3 {
		t.Errorf("sheet %s, separator %q, comma %t, %d rows, %d readings, %d missing", tb.Sheet, tb.Separator, tb.Comma, len(tb.Rows), len(tb.Readings), len(tb.Missing))
	}
	old, err := tb.Find("topload.empty", "old", "")
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := tb.Find("topload.empty", "new", "")
	if err != nil {
		t.Fatal(err)
	}
	burst, err := tb.Find("burst.pressure", "new", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"276,0 N", old.Readings[0].Value, 276},
		{"1.272,5 N", old.Readings[1].Value, 1272.5},
		{"27,3 kgf", fresh.Readings[0].Value, 27.3 * 9.80665},
		{"24,0 daN", fresh.Readings[2].Value, 240},
		{"134,9 psi", burst.Readings[0].Value, 134.9 * 6894.757293168},
	} {
		if math.Abs(c.got/c.want-1) > 1e-12 {
			t.Errorf("%s is %g, want %g", c.what, c.got, c.want)
		}
	}
	if burst.Readings[1].Censor != Above || burst.Readings[1].Line != 7 || burst.Readings[1].Col != 5 {
		t.Errorf("%+v", burst.Readings[1])
	}
	want := "1 above the heading\n9 the cell names another unit than the heading; the cell is believed\n10 a row of mittelwert, not a piece\n11 a note"
	if d := cmp.Diff(want, why(tb.Notes)); d != "" {
		t.Error(d)
	}
	if tb.Rows[1].Labels["bottle"] != "2" || burst.Piece(burst.Readings[1]) != "bottle 2" {
		t.Errorf("%+v", tb.Rows[1])
	}
}

func TestPrefixesAndUnitsInCells(t *testing.T) {
	tb, err := Read("x.csv", []byte("fill_C\tb1\tb2 [%]\n°85\t%0.97\t0.99 %\n88 °C\t1.14 %\t<1.2\n190,5 °F\t1.2%\t-\n"), "")
	if err != nil {
		t.Fatal(err)
	}
	tallied(t, tb)
	if tb.Separator != "\t" || tb.Sheet != "shrinkage" {
		t.Errorf("%+v", tb)
	}
	for i, want := range []float64{358.15, 361.15, (190.5 + 459.67) / 1.8} {
		if got := tb.Rows[i].Settings["fill"]; math.Abs(got-want) > 1e-9 {
			t.Errorf("fill %d is %g K, want %g", i, got, want)
		}
	}
	if math.Abs(tb.Readings[0].Value-0.0097) > 1e-12 || tb.Readings[3].Censor != Below {
		t.Errorf("%+v", tb.Readings)
	}
	a, err := Read("a.csv", []byte("sample;difference\n1;° 30\n2;37°\n3;0,64 rad\n"), "")
	if err != nil || math.Abs(a.Readings[0].Value-math.Pi/6) > 1e-12 {
		t.Errorf("%+v, %v", a.Readings, err)
	}
}

func TestFaultsHaveTheirPlace(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"letter for a digit", "bottle;burst_barg\n1;10,2\n2;9,O\n", []string{`3:2: "9,O": want a number`}},
		{"gauge or absolute", "bottle;burst_bar\n1;10,2\n", []string{`1:2: "burst_bar": unit bar is none of a gauge pressure: write bar(g)`}},
		{"no unit", "bottle;topload_empty\n1;246\n2;237\n", []string{`2:2: "246": neither heading nor cell names a unit`}},
		{"kilogram", "bottle;topload_empty (kg)\n1;24\n", []string{"unit kg is none of a force"}},
		{"twice", "bottle;burst_barg;burst_barg\n1;10;11\n", []string{`1:3: "burst_barg": the column stands twice`}},
		{"no unit in six columns", "week,b1,b2,b3,b4,b5,b6\n0,4.1,4.1,4.0,4.2,4.1,4.1\n1,4,4,4,4,4,4\n", []string{`2:2: "4.1": neither heading nor cell names a unit: write g/L, vol, kg/m³; the same in 5 more columns, up to 7`}},
		{"wrong unit twice", "week,b1_bar,b2_bar\n0,4.1,4.1\n", []string{`1:2: "b1_bar": unit bar is none of a carbonation: write g/L, vol, kg/m³; the same in column 3`}},
		{"no heading", "bottle;burst_barg;\n1;10;7\n2;10;8\n", []string{`2:3: "7": a value in a column without a heading`}},
		{"doubt", "bottle,topload_empty_N\n1,\"1,234\"\n2,\"1,250\"\n", []string{`2:2: "1,234": the comma may be a decimal`, `3:2: "1,250"`}},
		{"thousands", "bottle;burst_barg\n1;10,2\n2;1.234\n", []string{`3:2: "1.234": the point may be a thousands mark`}},
		{"error cell", "bottle,burst_barg\n1,#DIV/0!\n2,10.1\n", []string{`2:2: "#DIV/0!": want a number`}},
		{"open quote", "bottle,burst_barg\n1,\"10.1\n2,10.2\n", []string{`2:2: "10.1\n2,10.2\n": the quote is never closed`}},
		{"nothing known", "a,b\n1,2\n", []string{"1:1", "no heading found"}},
		{"no rows", "bottle,burst_barg\n", []string{"no readings"}},
		{"empty", "", []string{"the file is empty"}},
		{"below zero", "fill_C,b1_pct\n-300,1\n", []string{`2:1: "-300": below absolute zero`}},
		{"two separators", "bottle;burst_barg\n1;1.23.4\n2;9,1\n", []string{`2:2: "1.23.4": the number has several separators`}},
		{"huge", "bottle;burst_barg\n1;1e999\n2;9,1\n", []string{`2:2: "1e999": the number is too large`}},
	} {
		tb, err := Read("f.csv", []byte(c.text), "")
		if err == nil {
			t.Errorf("%s: no fault", c.name)
			continue
		}
		tallied(t, tb)
		found := false
		for _, w := range c.want {
			found = found || strings.Contains(err.Error(), w)
		}
		if !found {
			t.Errorf("%s: %v, want %q", c.name, err, c.want[0])
		}
	}
	// Every fault at once, and what could be read is there.
	tb, err := Read("f.csv", []byte("bottle;burst_barg;topload_empty_N\n1;x;246\n2;10,2;y\n3;z;q\n"), "")
	f, ok := err.(Faults)
	if !ok || len(f) != 4 || len(tb.Readings) != 2 || f[3].Line != 4 || f[3].Col != 3 {
		t.Errorf("%v; %d readings", err, len(tb.Readings))
	}
	if _, err := Read("f.csv", nil, "unheard"); err == nil {
		t.Error("unknown sheet: no fault")
	}
	if _, err := Read("f.csv", make([]byte, MaxBytes+1), ""); err == nil {
		t.Error("too large: no fault")
	}
}

func TestLongTable(t *testing.T) {
	const file = "sample,mould,test_code,value,unit,temp_C,rh_pct,operator,remark\n" +
		"1,2,burst,10.07,bar(g),23,50,ab,panel\n" +
		"2,6,burst,152,psi(g),23,50,ab,base\n" +
		"3,6,topload_empty_vented,24.1,kgf,23,50,ab,\n" +
		"4,6,stress_crack,>60,min,22,,ab,still whole\n" +
		"5,6,burst,,bar(g),23,50,ab,not run\n"
	tb, err := Read("long.csv", []byte(file), "")
	if err != nil {
		t.Fatal(err)
	}
	tallied(t, tb)
	b, err := tb.Find("burst.pressure", "", "")
	if err != nil || len(b.Readings) != 2 || math.Abs(b.Readings[1].Value-152*6894.757293168) > 1e-3 {
		t.Errorf("%+v, %v", b, err)
	}
	if s, err := tb.Find("stresscrack.time", "", ""); err != nil || s.Readings[0].Censor != Above || s.Readings[0].Value != 3600 {
		t.Errorf("%+v, %v", s, err)
	}
	if math.Abs(tb.Rows[0].Settings["temperature"]-296.15) > 1e-9 || tb.Rows[3].Labels["remark"] != "still whole" || len(tb.Missing) != 2 {
		t.Errorf("%+v; missing %+v", tb.Rows, tb.Missing)
	}
	for _, c := range []struct{ line, says string }{
		{"1,2,bursting,10,bar(g),23,50,a,b", "no rule knows the test"},
		{"1,2,burst,10,bar,23,50,a,b", "none of a gauge pressure"},
		{"1,2,burst,10,,23,50,a,b", "names a unit"},
		{"1,2,,10,bar(g),23,50,a,b", "names no test"},
	} {
		tb, err := Read("long.csv", []byte("sample,mould,test_code,value,unit,temp_C,rh_pct,operator,remark\n"+c.line+"\n"), "")
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.line, err)
		}
		tallied(t, tb)
	}
}

func TestEncodings(t *testing.T) {
	const text = "Prüfung am 3. Mai\nfill (°C);b1 (%)\n85;0,97\n88;1,14\n"
	var latin []byte
	for _, r := range text {
		latin = append(latin, byte(r))
	}
	wide := []byte{0xff, 0xfe}
	for _, u := range utf16.Encode([]rune(text)) {
		wide = append(wide, byte(u), byte(u>>8))
	}
	for name, data := range map[string][]byte{"utf-8": []byte(text), "1252": latin, "utf-16": wide, "named": []byte("sep=;\n" + text)} {
		tb, err := Read(name, data, "")
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		tallied(t, tb)
		if len(tb.Readings) != 2 || math.Abs(tb.Rows[0].Settings["fill"]-358.15) > 1e-9 {
			t.Errorf("%s: %+v", name, tb)
		}
	}
}

func TestUnknownColumnsAndSums(t *testing.T) {
	tb, err := Read("s.csv", []byte("bottle,mould,weather,total_g,shoulder_g,panel_g,base_g\n1,2,rain,38.8,13.1,15.5,10.2\n2,2,sun,38.8,13.1,15.5,11.2\n"), "")
	if err != nil {
		t.Fatal(err)
	}
	tallied(t, tb)
	want := "1 no rule of the sheet knows the column; its cells are kept as labels\n3 the sections do not add up to the bottle"
	if d := cmp.Diff(want, why(tb.Notes)); d != "" {
		t.Error(d)
	}
	if tb.Rows[0].Labels["weather"] != "rain" {
		t.Errorf("%+v", tb.Rows[0])
	}
}

// The demo tables read the same with semicolons and decimal commas, and the
// tally shows nothing lost.
func TestDemoTablesInAnotherHabit(t *testing.T) {
	files, err := filepath.Glob("testdata/*.csv")
	if err != nil || len(files) < 15 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		a, err := Read(f, data, "")
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		tallied(t, a)
		if a.Tally.Note+a.Tally.Missing+a.Tally.Faulty != 0 {
			t.Errorf("%s: %+v", f, a.Tally)
		}
		other := strings.ReplaceAll(strings.ReplaceAll(string(data), ",", ";"), ".", ",")
		b, err := Read(f, []byte(other), a.Sheet)
		if err != nil {
			t.Errorf("with commas: %v", err)
			continue
		}
		if len(a.Readings) != len(b.Readings) {
			t.Errorf("%s: %d and %d readings", f, len(a.Readings), len(b.Readings))
			continue
		}
		for i := range a.Readings {
			x, y := a.Readings[i], b.Readings[i]
			x.Text, y.Text = "", ""
			if x != y {
				t.Errorf("%s: %+v and %+v", f, x, y)
			}
		}
	}
}

// Every rule has what the reader needs of it.
func TestSheetsAreWhole(t *testing.T) {
	known := map[unit.Kind]bool{}
	for _, k := range unit.Kinds() {
		known[k] = true
	}
	for _, s := range Sheets() {
		seen := map[string]bool{}
		for _, r := range s.Rules {
			id := squash(r.Name) + "|" + string(r.Kind)
			if seen[id] {
				t.Errorf("%s: %s stands twice", s.Name, r.Name)
			}
			seen[id] = true
			if r.Key == "" || r.Label == "" {
				t.Errorf("%s: %s has no key or label", s.Name, r.Name)
			}
			if number := r.Role == Measure || r.Role == Setting || r.Role == Derived; number != known[r.Kind] {
				t.Errorf("%s: %s: role %s, kind %q", s.Name, r.Name, r.Role, r.Kind)
			}
			if r.Unit != "" {
				if _, ok := findUnit(r.Kind, r.Unit); !ok {
					t.Errorf("%s: %s: unit %q", s.Name, r.Name, r.Unit)
				}
			}
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"bottle;burst_barg\n1;10,2\n", "a,b\n", "sep=;\nbottle;Top load (N)\n1;\"2\"\"4\"\n", "week,b1_vol\n0,4.1\n1,4.0\n",
		"sample,test_code,value,unit\n1,burst,10,bar(g)\n", ";Top load;\nbottle;old;new\n;N;N\n1;2;3\nmean;2;3\n# x\n",
		"\xff\xfea\x00", "total_g\n1 234,5\n", "fill_C,b1_pct\n°85,%1\n", "q0_mm\tq90_mm\n.2\t,3\n", "burst_barg\r10\r\r11\r", "\"", "bottle;burst_barg\n1;<=1e-3 kPa(g)\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		tb, err := Read("f", data, "")
		c := tb.Tally
		if c.Cells != c.Heading+c.Reading+c.Label+c.Missing+c.Note+c.Faulty {
			t.Fatalf("cells are lost: %+v\n%v", c, err)
		}
		if c.Faulty > 0 && err == nil {
			t.Fatalf("%d faulty cells and no fault", c.Faulty)
		}
		if len(tb.Readings)+len(tb.Derived) > c.Reading {
			t.Fatalf("%d readings from %d cells", len(tb.Readings), c.Reading)
		}
		for _, r := range tb.Readings {
			if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
				t.Fatalf("%+v", r)
			}
		}
		if fs, ok := err.(Faults); ok {
			for _, x := range fs {
				if x.Line < 1 || x.Col < 1 {
					t.Fatalf("fault without a place: %+v", x)
				}
			}
		}
		tb.Series()
	})
}
