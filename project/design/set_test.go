package design

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"costrel/unit"
)

const noted = `# Head of the file.
schema: 1
name: Sorrel # our name
class: csd-1500

# --- the drink
drink:
  # from the lab
  carbonation: 4.1 vol   # after 24 h
  sugar: 92 g/L

# --- the preform
preform:
  wall: 3.6 mm
  # gate next
  gate: "2.8 mm" # 78 %

oven:
  zones: # neck to tip
    columns: [zone, power %]
    rows:
      - [1, 60] # neck
      - [2, 50]
blow: {high_blow: 34 bar(g), rod_gap: 1.8 mm} # recipe
limits:
  # the customer's
  - {figure: shelf.loss.end, side: max, value: "12 %", owner: Quernholm} # agreed
  - figure: closure.lift
    side: max
    value: 650 N
bottle:
  planes: [60 mm, 190 mm] # cut
  profile:
    columns: [z mm, r in, via]
    rows:
      - [0, 1]
      - [60, 1.98, curve]
      - [288, 0.52]
# tail
`

func TestSet(t *testing.T) {
	if root, faults := flat(noted); len(faults) > 0 || len(root) == 0 {
		t.Fatal(faults)
	}
	for _, c := range []struct {
		what, path, value string
		old, new          string // the change
	}{
		{"a value with comments above and behind", "drink.carbonation", "4.2 vol", "carbonation: 4.1 vol   # after", "carbonation: 4.2 vol   # after"},
		{"a quoted value stays quoted", "preform.gate", "2.9 mm", `gate: "2.8 mm" # 78 %`, `gate: "2.9 mm" # 78 %`},
		{"a top value", "name", "Sorrel Lime", "name: Sorrel # our", "name: Sorrel Lime # our"},
		{"special characters", "name", "Sorrel: #1, 100 % lime", "name: Sorrel # our", `name: "Sorrel: #1, 100 % lime" # our`},
		{"quotes and backslash", "name", `a "b" \c`, "name: Sorrel # our", `name: a "b" \c # our`},
		{"a leading quote", "name", `"b" c`, "name: Sorrel # our", `name: "\"b\" c" # our`},
		{"percent", "resin.recycled", "25 %", "\n# --- the preform\n", "\nresin:\n  recycled: 25 %\n\n# --- the preform\n"},
		{"a word that reads as nothing", "note", "null", "class: csd-1500\n", "class: csd-1500\nnote: \"null\"\n"},
		{"two lines", "note", "one\ntwo", "class: csd-1500\n", "class: csd-1500\nnote: \"one\\ntwo\"\n"},
		{"a value added in the order of the schema", "preform.inner_diameter", "19.6 mm", "  gate: \"2.8 mm\" # 78 %\n", "  gate: \"2.8 mm\" # 78 %\n  inner_diameter: 19.6 mm\n"},
		{"a value added behind its neighbour", "drink.fill_temperature", "12 °C", "  sugar: 92 g/L\n", "  sugar: 92 g/L\n  fill_temperature: 12 °C\n"},
		{"a value added between", "drink.basis", "mass", "# after 24 h\n", "# after 24 h\n  basis: mass\n"},
		{"a new section between sections", "climate.store", "22 °C", "  sugar: 92 g/L\n\n", "  sugar: 92 g/L\n\nclimate:\n  store: 22 °C\n\n"},
		{"a new section at the end", "plant.scrap", "1 %", "- [288, 0.52]\n", "- [288, 0.52]\nplant:\n  scrap: 1 %\n"},
		{"a new section two deep", "bottle.base.type", "punt", "      - [288, 0.52]\n", "      - [288, 0.52]\n  base:\n    type: punt\n"},
		{"a value taken out", "drink.sugar", "", "  sugar: 92 g/L\n", ""},
		{"a value taken out that is not there", "drink.nitrogen", "", "", ""},
		{"a value in braces", "blow.high_blow", "35 bar(g)", "high_blow: 34 bar(g)", "high_blow: 35 bar(g)"},
		{"a value added in braces", "blow.rod_speed", "1.5 m/s", "rod_gap: 1.8 mm}", "rod_gap: 1.8 mm, rod_speed: 1.5 m/s}"},
		{"a value taken out of braces", "blow.high_blow", "", "{high_blow: 34 bar(g), rod_gap", "{rod_gap"},
		{"the last taken out of braces", "blow.rod_gap", "", ", rod_gap: 1.8 mm}", "}"},
		{"a limit in braces", "limits[0].value", "11 %", `value: "12 %"`, `value: "11 %"`},
		{"a limit on lines", "limits[1].value", "600 N", "value: 650 N", "value: 600 N"},
		{"a limit gets a note", "limits[1].note", "below blow-off", "    value: 650 N\n", "    value: 650 N\n    note: below blow-off\n"},
		{"a comma in braces", "limits[0].owner", "Quernholm, Ltd", "owner: Quernholm}", `owner: "Quernholm, Ltd"}`},
		{"an entry of a list", "bottle.planes[1]", "195 mm", "[60 mm, 190 mm]", "[60 mm, 195 mm]"},
		{"a cell in the unit of its column", "oven.zones[1].power", "52 %", "[2, 50]", "[2, 52]"},
		{"a cell without a unit", "oven.zones[0].power", "61", "[1, 60]", "[1, 61]"},
		{"a cell in another unit", "bottle.profile[1].r", "50.5 mm", "1.98, curve", "50.5 mm, curve"},
		{"a cell in the unit in inches", "bottle.profile[2].r", `0.515 in`, "[288, 0.52]", "[288, 0.515]"},
		{"a cell added", "bottle.profile[2].via", "arc 35 mm", "[288, 0.52]", "[288, 0.52, arc 35 mm]"},
		{"a cell taken out", "bottle.profile[1].via", "", "1.98, curve]", "1.98, ~]"},
		{"nothing changes", "drink.carbonation", "4.1 vol", "", ""},
	} {
		t.Run(c.what, func(t *testing.T) {
			for _, eol := range []string{"\n", "\r\n"} {
				crlf := func(s string) string { return strings.ReplaceAll(s, "\n", eol) }
				if n := strings.Count(noted, c.old); c.old != "" && n != 1 {
					t.Fatalf("%q stands %d times", c.old, n)
				}
				want := strings.Replace(noted, c.old, c.new, 1)
				if c.old == "" {
					want = noted
				}
				got, err := Set(crlf(noted), c.path, c.value)
				if err != nil {
					t.Fatal(err)
				}
				if diff := cmp.Diff(crlf(want), got); diff != "" {
					t.Errorf("(-want +got):\n%s", diff)
				}
			}
		})
	}
}

// What Set adds it takes away again without a trace.
func TestSetUndone(t *testing.T) {
	for _, text := range []string{noted, strings.TrimSuffix(noted, "\n"), minimal("csd-500"), "schema: 1\nname: x\nclass: csd-500", "\ufeff" + minimal("csd-500"), "---\n" + minimal("csd-500") + "...\n"} {
		for _, it := range Walk() {
			if it.Table {
				continue
			}
			held, _ := flat(text)
			if _, has := held[it.Path]; has {
				continue
			}
			with, err := Set(text, it.Path, "some value")
			if err != nil {
				t.Errorf("%s: %v", it.Path, err)
				continue
			}
			back, err := Set(with, it.Path, "")
			if err != nil {
				t.Errorf("%s back: %v", it.Path, err)
				continue
			}
			if diff := cmp.Diff(text, back); diff != "" {
				t.Errorf("%s leaves a trace (-before +after):\n%s", it.Path, diff)
			}
		}
	}
}

func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ what, text, path, value, says string }{
		{"an unknown path", noted, "preform.wal", "3 mm", "nearest: preform.wall"},
		{"a section", noted, "preform", "3 mm", "this is a section"},
		{"a table", noted, "oven.zones", "3", "name an entry"},
		{"a bad index", noted, "oven.zones[x].power", "3 %", "is no path"},
		{"a huge index", noted, "oven.zones[99999999999].power", "3 %", "is no path"},
		{"a negative index", noted, "oven.zones[-1].power", "3 %", "is no path"},
		{"an index on a value", noted, "preform.wall[0]", "3 mm", "is no list"},
		{"a row that is not there", noted, "oven.zones[7].power", "3 %", "has 2 rows"},
		{"an entry that is not there", noted, "bottle.planes[4]", "3 mm", "has 2 entries"},
		{"a row taken out", noted, "oven.zones[1].power", "", "taken out in the text"},
		{"an entry taken out", noted, "bottle.planes[1]", "", "taken out in the text"},
		{"a limit of the template", minimal("csd-500"), "limits[0].value", "10 %", "no limits of its own"},
		{"a missing column", "schema: 1\nname: x\nclass: csd-500\noven:\n  zones: {columns: [zone], rows: [[1]]}\n", "oven.zones[0].power", "3 %", "no column power"},
		{"text that is no YAML", "a: [\n", "name", "x", "not closed"},
		{"no mapping", "- a\n", "name", "x", "no mapping"},
		{"the only value", "name: x\n", "name", "", "all that the document holds"},
		{"not text", noted, "name", "\xff", "not text"},
		{"NUL", noted, "name", "a\x00", "not text"},
		{"a double key", "name: a\nname: b\n", "name", "c", "stands twice"},
		{"a mapping in the way", "name: {a: b}\n", "name", "c", "edit it in the text"},
		{"a value in the way", "preform: 3\nname: x\n", "preform.wall", "3 mm", "edit it in the text"},
		{"an explicit nothing", "preform: ~\nname: x\n", "preform.wall", "3 mm", "edit it in the text"},
		{"the line of a dash", "name: x\nlimits:\n  - owner: a\n    figure: wall.min\n", "limits[0].owner", "", "line of its dash"},
		{"braces over lines", "blow: {rod_gap: 1 mm,\n  rod_speed: 2 m/s}\nname: x\n", "blow.rod_gap", "", "several lines"},
	} {
		t.Run(c.what, func(t *testing.T) {
			got, err := Set(c.text, c.path, c.value)
			if err == nil {
				t.Fatalf("done:\n%s", got)
			}
			if !strings.Contains(unit.Spell(err.Error(), unit.EU), c.says) {
				t.Errorf("%q does not say %q", err, c.says)
			}
		})
	}
}

// A cell of a table that only the template has brings the table along.
func TestSetBringsTable(t *testing.T) {
	got, err := Set(minimal("csd-1500"), "oven.zones[2].power", "44 %")
	if err != nil {
		t.Fatal(err)
	}
	want := minimal("csd-1500") + `oven:
  zones:
    columns: [zone, power %]
    rows:
      - [1, 60]
      - [2, 50]
      - [3, 44]
      - [4, 46]
      - [5, 48]
      - [6, 50]
      - [7, 54]
      - [8, 60]
`
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	got, err = Set(minimal("csd-1500"), "bottle.planes[1]", "205 mm")
	if want := minimal("csd-1500") + "bottle:\n  planes: [52 mm, 205 mm]\n"; err != nil || got != want {
		t.Errorf("planes: %v\n%s", err, got)
	}
	before, err := Load("", minimal("csd-1500"))
	if err != nil {
		t.Fatal(err)
	}
	got, err = Set(minimal("csd-1500"), "bottle.profile[0].r", "30.9 mm")
	if err != nil {
		t.Fatal(err)
	}
	after, err := Load("", got)
	if err != nil {
		t.Fatal(err)
	}
	a, b := before.Design.Bottle.Profile, after.Design.Bottle.Profile
	if len(a) != len(b) || abs(b[0].R-30.9e-3) > 1e-12 {
		t.Fatalf("profile of %d rows became %d, first radius %g", len(a), len(b), b[0].R)
	}
	for i := range a[1:] {
		if dz, dr := abs(a[i+1].Z-b[i+1].Z), abs(a[i+1].R-b[i+1].R); dz > 1e-5 || dr > 1e-5 || a[i+1].Via != b[i+1].Via {
			t.Errorf("row %d moved: %v to %v", i+1, a[i+1], b[i+1])
		}
	}
}

func TestSetLongText(t *testing.T) {
	text := minimal("csd-500") + "note: |\n  one\n  two\nbrief:\n  customer: >-\n    a\n    b\n"
	got, err := Set(text, "note", "three")
	if want := minimal("csd-500") + "note: three\nbrief:\n  customer: >-\n    a\n    b\n"; err != nil || got != want {
		t.Errorf("%v\n%s", err, got)
	}
	got, err = Set(text, "brief.customer", "")
	if want := minimal("csd-500") + "note: |\n  one\n  two\n"; err != nil || got != want {
		t.Errorf("%v\n%s", err, got)
	}
}
