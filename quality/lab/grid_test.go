package lab

import "testing"

func TestCells(t *testing.T) {
	for name, c := range map[string]struct {
		text  string
		comma bool
		want  [][]string // the numbers of the second row on, made plain
	}{
		"tabs and decimal commas":      {"z [mm]\tr [mm]\n0\t25,5\n5,25\t33,8\n", true, [][]string{{"0", "25.5"}, {"5.25", "33.8"}}},
		"semicolons, commas in doubt":  {"z;r\n0;25,125\n1,500;33,250\n", true, [][]string{{"0", "25.125"}, {"1.5", "33.25"}}},
		"commas and points":            {"z,r\n0,25.5\n5.25,33.8\n", false, [][]string{{"0", "25.5"}, {"5.25", "33.8"}}},
		"quoted decimal commas":        {"z,r\n\"0,5\",\"25,5\"\n", true, [][]string{{"0.5", "25.5"}}},
		"blank rows and a unit behind": {"z\tr\n\n0 mm\t25,5 mm\n\n", true, [][]string{{"0 mm", "25.5 mm"}}},
	} {
		g := Cells("", []byte(c.text))
		if g.Comma != c.comma || len(g.Faults) > 0 {
			t.Errorf("%s: comma %v, faults %v", name, g.Comma, g.Faults)
		}
		if len(g.Rows) != len(c.want)+1 {
			t.Fatalf("%s: %d rows", name, len(g.Rows))
		}
		for i, want := range c.want {
			for j, cell := range g.Rows[i+1] {
				if got := g.Plain(cell.Text); got != want[j] {
					t.Errorf("%s: row %d cell %d: %q, want %q", name, i, j, got, want[j])
				}
			}
		}
	}
}

func TestGridNumber(t *testing.T) {
	g := Cells("", []byte("a;b\n1,5;2\n"))
	if _, _, ok, _ := g.Number("high"); ok {
		t.Error("a word is read as a number")
	}
	if _, _, ok, err := g.Number("<0,5"); !ok || err == nil {
		t.Error("a bound is taken as a value")
	}
	if _, _, _, err := g.Number("1.234,5,6"); err == nil {
		t.Error("contradicting separators are taken")
	}
}

func TestHeading(t *testing.T) {
	for text, want := range map[string][2]string{
		"z [mm]": {"z", "mm"}, "power (%)": {"power", "%"}, "r, mm": {"r", "mm"}, "z mm": {"z", "mm"}, "z in mm": {"z", "mm"}, "r/mm": {"r", "mm"}, "r_mm": {"r", "mm"},
		"radius": {"radius", ""}, "zone": {"zone", ""}, "wall thickness": {"wall thickness", ""}, "z in": {"z", "in"},
	} {
		if name, unit := Heading(text); name != want[0] || unit != want[1] {
			t.Errorf("%q: %q %q, want %q", text, name, unit, want)
		}
	}
}
