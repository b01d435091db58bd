package design

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"costrel/unit"
)

const ownUnits = `lab:
  pulls:
    columns: [time weeks, carbonation vol]
    rows:
      - [1, 4.050]
      - [4, 3.98765]
  drops:
    columns: [height m, failed]
    rows:
      - [1.2, 0]
climate:
  lane:
    - {place: truck, duration: 2 d, temperature: 35 °C, altitude: 1600 m}
bottle:
  planes: [60 mm, 150 mm]
`

// A column is shown in the unit that the design writes it in, to every reader.
func TestTablesKeepTheirUnits(t *testing.T) {
	text := minimal("csd-500") + ownUnits
	doc, err := Load("x", text)
	if err != nil {
		t.Fatal(err)
	}
	for _, system := range []unit.System{unit.EU, unit.US, "us,length=mm,time=d"} {
		pulls := &ListedTable{Columns: []string{"time weeks", "carbonation vol"}, Rows: [][]string{{"1", "4.05"}, {"4", "3.98765"}}}
		if diff := cmp.Diff(pulls, listed(t, doc, system, "lab.pulls").Table); diff != "" {
			t.Error(system, diff)
		}
		if got := listed(t, doc, system, "lab.drops").Table; got.Columns[0] != "height m" || got.Rows[0][0] != "1.2" {
			t.Error(system, got)
		}
		lane := listed(t, doc, system, "climate.lane").Table
		if head := strings.Join(lane.Columns, "; "); !strings.Contains(head, "duration d; temperature °C") || !strings.HasSuffix(head, "altitude m") {
			t.Error(system, head)
		}
	}
	// A cell that is edited as it is shown keeps the unit of the document.
	out, err := Set(text, "lab.pulls[0].time", "2 weeks")
	if err != nil || !strings.Contains(out, "- [2, 4.050]") || !strings.Contains(out, "columns: [time weeks, carbonation vol]") {
		t.Errorf("%v\n%s", err, out)
	}
}

// A column that nobody has written is shown in the unit of the trade.
func TestTablesInTheUnitsOfTheTrade(t *testing.T) {
	doc, err := Load("x", minimal("csd-500"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path   string
		system unit.System
		want   string
	}{
		{"lab.pulls", unit.EU, "time d|carbonation vol"},
		{"lab.pulls", unit.US, "time d|carbonation vol"},
		{"lab.drops", unit.EU, "height m|failed"},
		{"lab.drops", unit.US, "height ft|failed"},
		{"hotfill.record", unit.EU, "time min|temperature °C"},
		{"hotfill.record", unit.US, "time min|temperature °F"},
	} {
		for _, l := range doc.Listing(c.system) {
			if l.Path == c.path && l.Table != nil {
				if got := strings.Join(l.Table.Columns, "|"); got != c.want {
					t.Errorf("%s for %s: %s", c.path, c.system, got)
				}
			}
		}
	}
}

// Rows without a heading have the units of the table; a time that the design
// gives no unit for is asked about before anything is taken.
func TestPasteInto(t *testing.T) {
	const rows = "0\t4.10\n4\t4.02\n8\t3.95\n"
	own, none := minimal("csd-500")+ownUnits, minimal("csd-500")
	p, err := PasteInto(own, "lab.pulls", rows, ListedTable{}, nil)
	if err != nil || len(p.Faults)+len(p.Asks) > 0 {
		t.Fatal(err, p)
	}
	if got := strings.Join(p.Table.Columns, "|"); got != "time weeks|carbonation vol" {
		t.Errorf("read as %s", got)
	}
	if told := strings.Join(p.Notes, " "); !strings.Contains(told, "time weeks, carbonation vol") || !strings.Contains(told, "the table is shown in: time, carbonation") {
		t.Errorf("told: %s", told)
	}
	out, err := Set(own, "lab.pulls", p.Table.TSV())
	if err != nil || !strings.Contains(out, "- [4, 4.02]") || !strings.Contains(out, "columns: [time weeks, carbonation vol]") {
		t.Errorf("%v\n%s", err, out)
	}
	present := ListedTable{Columns: []string{"time d", "carbonation vol"}}
	p, err = PasteInto(none, "lab.pulls", rows, present, nil)
	if err != nil || len(p.Faults) > 0 || len(p.Asks) != 1 || p.Asks[0].Key != "time" || p.Asks[0].Units[0] != "d" || indexOf(p.Asks[0].Units, "weeks") < 0 {
		t.Fatalf("%v %+v", err, p)
	}
	p, err = PasteInto(none, "lab.pulls", rows, present, map[string]string{"time": "weeks"})
	if err != nil || len(p.Faults)+len(p.Asks) > 0 || p.Table.Columns[0] != "time weeks" {
		t.Errorf("answered: %v %+v", err, p)
	}
	if p, _ = PasteInto(none, "lab.pulls", rows, present, map[string]string{"time": "kg"}); len(p.Faults) != 1 {
		t.Errorf("answered with a unit of mass: %+v", p)
	}
	// Units in the cells or in a heading leave nothing to ask.
	for _, text := range []string{"0 d\t4.1\n4 weeks\t4.0\n", "time [weeks]\tcarbonation [vol]\n4\t4.0\n"} {
		if p, _ = PasteInto(none, "lab.pulls", text, present, nil); len(p.Asks)+len(p.Faults) > 0 {
			t.Errorf("%q: %+v", text, p)
		}
	}
	// A design with faults says nothing of its units.
	if p, _ = PasteInto(own+"nonsense: 1\n", "lab.pulls", rows, present, nil); len(p.Asks) != 1 {
		t.Errorf("in a faulty design: %+v", p)
	}
}

// Two designs that write the same rows in different units read alike side by side.
func TestListingBeside(t *testing.T) {
	const drops = "lab:\n  drops:\n    columns: [height %s, failed]\n    rows:\n      - [%s, 0]\n"
	load := func(symbol, height string) *Document {
		doc, err := Load("x", minimal("csd-500")+fmt.Sprintf(drops, symbol, height))
		if err != nil {
			t.Fatal(err)
		}
		return doc
	}
	a, b := load("m", "1.20"), load("cm", "120")
	at := func(l []Listed) *ListedTable {
		return l[slices.IndexFunc(l, func(l Listed) bool { return l.Path == "lab.drops" })].Table
	}
	if diff := cmp.Diff(at(b.Listing(unit.EU)), at(a.ListingBeside(b, unit.EU))); diff != "" {
		t.Error(diff)
	}
	if own := at(a.Listing(unit.EU)); own.Rows[0][0] != "1.2" {
		t.Errorf("alone: %v", own)
	}
}
