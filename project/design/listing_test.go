package design

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"costrel/figure"
	"costrel/unit"
)

func listed(t *testing.T, doc *Document, system unit.System, path string) Listed {
	t.Helper()
	for _, l := range doc.Listing(system) {
		if l.Path == path {
			return l
		}
	}
	t.Fatalf("%s is not listed", path)
	return Listed{}
}

func TestListing(t *testing.T) {
	doc, err := Load("demo.yaml", demo(t))
	if err != nil {
		t.Fatal(err)
	}
	for _, system := range []unit.System{unit.EU, unit.US} {
		list := doc.Listing(system)
		if len(list) != len(Walk()) {
			t.Fatalf("%d listed of %d", len(list), len(Walk()))
		}
		for _, l := range list {
			if l.Label == "" || l.Section == "" || l.Origin == "" {
				t.Errorf("%s: label %q, section %q, origin %q", l.Path, l.Label, l.Section, l.Origin)
			}
			if l.Origin == figure.Default && l.Value != nil && l.Source == "" {
				t.Errorf("%s is a default without source", l.Path)
			}
			if v, ok := l.Value.(float64); ok && (l.Min != nil && v < *l.Min*(1-1e-9) && *l.Min > 0 || l.Max != nil && v > *l.Max*(1+1e-9)) {
				t.Errorf("%s = %g outside its range", l.Path, v)
			}
			if l.Quantity != "" && l.Value != nil && l.Table == nil {
				if q, err := unit.Parse(l.Quantity, l.Display); err != nil {
					t.Errorf("%s shows %q: %v", l.Path, l.Display, err)
				} else if v := l.Value.(float64); abs(q.SI-v) > 6e-4*abs(v)+1e-12 {
					t.Errorf("%s shows %q for %g", l.Path, l.Display, v)
				} else if q.Symbol != l.Unit {
					t.Errorf("%s shows %q, unit %q", l.Path, l.Display, l.Unit)
				}
			}
		}
	}
	wall := listed(t, doc, unit.US, "preform.wall")
	if wall.Text == "" || wall.Origin != figure.Given || wall.Quantity != unit.Length || wall.Value.(float64) != 3.6e-3 || *wall.Min != 1e-3 {
		t.Errorf("preform.wall: %+v", wall)
	}
	b, err := json.Marshal(listed(t, doc, unit.EU, "drink.pressure_model"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`"path":"drink.pressure_model"`, `"choices":["closed","open"]`, `"min":null`, `"section":"Drink"`, `"quantity":""`} {
		if !strings.Contains(string(b), want) {
			t.Errorf("%s lacks %s", b, want)
		}
	}
	if c := listed(t, doc, unit.EU, "finish.type").Choices; indexOf(c, "28-short-csd") < 0 {
		t.Errorf("finish.type offers %v", c)
	}
}

func TestListingTables(t *testing.T) {
	text := strings.Replace(noted, "  profile:", "  height: 305 mm\n  profile:", 1)
	text = strings.Replace(text, "[288, 0.52]", "[288, 13.1 mm]", 1)
	doc, err := Load("noted", text+"climate:\n  lane:\n    - {place: truck, duration: 2 d, temperature: 35 °C, swing: 5 K}\n    - {duration: 3 weeks, temperature: 71.6 °F}\n")
	if err != nil {
		t.Fatal(err)
	}
	want := &ListedTable{Columns: []string{"z mm", "r in", "via"}, Rows: [][]string{{"0", "1", ""}, {"60", "1.98", "curve"}, {"288", "0.51575", ""}}}
	if diff := cmp.Diff(want, listed(t, doc, unit.EU, "bottle.profile").Table); diff != "" {
		t.Error(diff)
	}
	want = &ListedTable{Columns: []string{"planes mm"}, Rows: [][]string{{"60"}, {"190"}}}
	if diff := cmp.Diff(want, listed(t, doc, unit.EU, "bottle.planes").Table); diff != "" {
		t.Error(diff)
	}
	lane := listed(t, doc, unit.US, "climate.lane").Table
	if lane.Rows[0][2] != "95" || lane.Rows[1][2] != "71.6" || !strings.HasSuffix(lane.Columns[2], "°F") || lane.Rows[1][0] != "" {
		t.Errorf("lane in US units: %v", lane)
	}
	limits := listed(t, doc, unit.EU, "limits")
	if limits.Table.Rows[0][2] != "12 %" || limits.Origin != figure.Given || limits.Value != nil {
		t.Errorf("limits: %+v", limits)
	}
	for i, l := range doc.Design.Limits {
		m := doc.MarkOf("limits" + index(i) + ".figure")
		if m.Text != l.Figure {
			t.Errorf("limit %d is on %s, its mark says %q", i, l.Figure, m.Text)
		}
		if (i < 2) != (m.Kind == figure.Given) {
			t.Errorf("limit %d is %s", i, m.Kind)
		}
	}
}

// Another currency names the prices, and converts none.
func TestListingCurrency(t *testing.T) {
	doc, err := Load("x", minimal("csd-500")+"plant:\n  currency: USD\n  resin_price: 1.3 USD/kg\n")
	if err != nil {
		t.Fatal(err)
	}
	if l := listed(t, doc, unit.EU, "plant.resin_price"); l.Display != "1.3 USD/kg" || l.Unit != "USD/kg" {
		t.Errorf("resin price: %+v", l)
	}
	if len(doc.Warnings) != 1 || !strings.Contains(doc.Warnings[0].Message, "without conversion") {
		t.Errorf("warnings: %v", doc.Warnings)
	}
}

func TestAbsentValue(t *testing.T) {
	doc, err := Load("x", minimal("still-500"))
	if err != nil {
		t.Fatal(err)
	}
	if l := listed(t, doc, unit.EU, "drink.carbonation"); l.Value != nil || l.Display != "" || l.Origin != figure.Default || l.Unit == "" {
		t.Errorf("carbonation of still water: %+v", l)
	}
	if l := listed(t, doc, unit.EU, "bottle.profile"); l.Origin != figure.Assumed || len(l.Table.Rows) < 10 {
		t.Errorf("drawn profile: %+v", l)
	}
}
