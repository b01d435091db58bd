package run

import (
	"math"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/num/numtest"
	"costrel/unit"
)

// examples are the designs that come with the program.
var exampleNames = []string{"sorrel-lime.yaml", "wrenhollow.yaml", "ravensholt-old.yaml", "ravensholt-new.yaml"}

// TestPlotWords reads every plot and map of every example, in preview and in
// full: titles, axes and legends say what they show in a quantity that has the
// unit asked for, and no note contradicts the wall that is shown.
func TestPlotWords(t *testing.T) {
	if testing.Short() {
		t.Skip("a full run of each example")
	}
	for _, name := range exampleNames {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			doc := example(t, name)
			cache := NewCache(1024)
			full, err := Full(t.Context(), doc, cache, nil)
			if err != nil {
				t.Fatal(err)
			}
			for state, r := range map[string]*Result{"preview": Check(doc, cache), "full": full} {
				for _, sys := range []unit.System{unit.EU, unit.US} {
					for _, p := range r.Plots {
						wordedPlot(t, state, p.In(sys))
					}
					for _, m := range r.Maps {
						m = m.In(sys)
						for _, a := range []Axis{m.X, m.Y, m.V} {
							wordedAxis(t, state+" "+m.Key, a)
						}
						worded(t, state+" "+m.Key, m.Title)
					}
				}
				fields(t, state, r)
			}
			walls(t, full)
			carried(t, full, doc.Design.Blow.Free)
		})
	}
}

func wordedPlot(t *testing.T, state string, p Plot) {
	t.Helper()
	where := state + " " + p.Key
	worded(t, where, p.Title)
	wordedAxis(t, where, p.X)
	wordedAxis(t, where, p.Y)
	for _, s := range p.Series {
		worded(t, where, s.Name)
	}
	for _, m := range p.Marks {
		worded(t, where, m.Label)
	}
	if strings.TrimSpace(p.Note) != p.Note || strings.Contains(p.Note, "‹") {
		t.Errorf("%s: note %q", where, p.Note)
	}
	blown := state == "full"
	switch {
	case blown && strings.Contains(p.Note, wallNote):
		t.Errorf("%s: under a blown wall: %s", where, p.Note)
	case !blown && strings.Contains(p.Note, "blown one"), !blown && strings.Contains(p.Note, "computed by the blow"):
		t.Errorf("%s: under a preview: %s", where, p.Note)
	case p.Key == "wall.arc" && blown:
		for _, s := range p.Series {
			if !strings.Contains(p.Note, "“"+s.Name+"”") {
				t.Errorf("%s: nothing says which wall %q is: %s", where, s.Name, p.Note)
			}
		}
	}
}

// worded holds a text that a reader sees against being empty or having empty
// brackets.
func worded(t *testing.T, where, text string) {
	t.Helper()
	if strings.TrimSpace(text) != text || text == "" || strings.Contains(text, "[]") || strings.Contains(text, "()") || strings.ContainsAny(text, "‹›") {
		t.Errorf("%s: %q", where, text)
	}
}

func wordedAxis(t *testing.T, where string, a Axis) {
	t.Helper()
	worded(t, where, a.Label)
	if len(unit.Units(a.Kind)) == 0 {
		t.Errorf("%s: axis %q has no quantity: %q", where, a.Label, a.Kind)
	}
	if _, ok := unit.Find(a.Kind, a.Unit); a.Unit != "" && !ok {
		t.Errorf("%s: axis %q: %q is no unit of %s", where, a.Label, a.Unit, a.Kind)
	}
}

// fields: each field along the wall is there or it is said why not, and what is
// promised of the full run comes.
func fields(t *testing.T, state string, r *Result) {
	t.Helper()
	there := map[string]bool{}
	for _, p := range r.Plots {
		there[p.Key] = true
	}
	told := map[string]Absent{}
	for _, a := range r.Absent {
		told[a.Plot] = a
		if a.Full == (a.Why != "") || a.Full && r.Full {
			t.Errorf("%s: absent: %+v", state, a)
		}
	}
	for _, f := range alongWall {
		if _, ok := told[f.plot]; ok == there[f.plot] {
			t.Errorf("%s: %s is there: %v, told absent: %v", state, f.plot, there[f.plot], ok)
		}
	}
	gas := r.Doc.Design.Drink.Carbonation != nil && *r.Doc.Design.Drink.Carbonation > 0
	if a := told["strength.stress"]; !gas && a.Why != noPressure || gas && a.Full == r.Full {
		t.Errorf("%s: stress: %+v", state, a)
	}
}

// walls: the blown wall stands in one plot.
func walls(t *testing.T, r *Result) {
	t.Helper()
	if !r.Blown() {
		t.Fatal("no blown wall")
	}
	names := map[string][]string{}
	for _, p := range r.Plots {
		for _, s := range p.Series {
			if p.Y.Label == "wall" && p.X.Label == "arc from the gate" {
				names[s.Name] = append(names[s.Name], p.Title)
			}
		}
	}
	if len(names) != 2 || len(names[blownName]) != 1 || len(names[drawnName]) != 1 {
		t.Errorf("walls along the bottle: %v", names)
	}
}

// carried: the temperature that the plastic had in the preform, by the mass of
// the bottle's places, has the mean of the preform. The wall of the bottle is
// another one than that of the preform, which is where the mass comes from.
func carried(t *testing.T, r *Result, free bool) {
	t.Helper()
	var got, wall *Plot
	for i, p := range r.Plots {
		switch p.Key {
		case "reheat.bottle":
			got = &r.Plots[i]
		case "wall.arc":
			wall = &r.Plots[i]
		}
	}
	if free || got == nil || wall == nil {
		t.Fatalf("no temperature along the bottle: %v", got)
	}
	g := r.Geometry.Bottle
	sum, mass := 0.0, 0.0
	for i := 1; i < len(g.S); i++ {
		m := (g.S[i] - g.S[i-1]) * (g.R[i] + g.R[i-1]) / 2 * (g.Wall[i] + g.Wall[i-1]) / 2
		a, b, x := bracket(got.Series[0].X, (g.S[i]+g.S[i-1])/2)
		y := got.Series[0].Y
		sum, mass = sum+m*(y[a]+x*(y[b]-y[a])), mass+m
	}
	for _, f := range r.Figures {
		if f.Key == "reheat.temperature.mean" && math.Abs(sum/mass-f.Value) > 0.5 {
			t.Errorf("mean of the bottle %.2f K, of the preform %.2f K", sum/mass, f.Value)
		}
	}
}

// TestPanelWords: what the catalogue says of the mean wall of the panel holds. A
// moved cut plane weighs anew and leaves it; planes of the targets go before
// bottle.parts, those before the cut planes.
func TestPanelWords(t *testing.T) {
	e, _ := figure.Find("wall.panel.mean")
	for _, word := range []string{"planes of the section targets, else", "bottle.parts, else the cut planes", "leaves it"} {
		if !strings.Contains(e.Definition, word) {
			t.Errorf("the definition does not say %q: %s", word, e.Definition)
		}
	}
	doc := example(t, "sorrel-lime.yaml")
	d := doc.Design
	read := func(r *Result) (panel, grams float64) {
		return value(t, r, "wall.panel.mean"), value(t, r, "section.panel.mass")
	}
	targets, cut := d.Preform.Targets, d.Bottle.Planes
	if targets == nil || len(targets.Planes) == 0 {
		t.Fatal("no planes of the targets")
	}
	mean, grams := read(Check(doc, nil))
	if p, g := read(Check(replaned(doc, 4e-3), nil)); p != mean || g == grams {
		t.Errorf("a moved cut plane: mean wall %g to %g, section %g to %g", mean, p, grams, g)
	}
	// Without targets the wall follows the rule of thumb, and bottle.parts and planes part it.
	d.Preform.Targets = nil
	d.Bottle.Parts = []float64{cut[0] + 5e-3, cut[1]}
	parts, _ := read(Check(doc, nil))
	if p, _ := read(Check(replaned(doc, 4e-3), nil)); p != parts {
		t.Errorf("beside bottle.parts a cut plane moves the mean wall from %g to %g", parts, p)
	}
	d.Bottle.Parts = nil
	bare, _ := read(Check(doc, nil))
	if p, _ := read(Check(replaned(doc, 5e-3), nil)); bare == parts || p == bare {
		t.Errorf("without bottle.parts the cut planes part the wall: %g, %g, %g", parts, bare, p)
	}
}

// TestPanelUnits: what panels give, the vacuum and their compliance are read in
// units that multiply: mL over kPa times kPa is mL, on the board and on every
// plot of the hot pack.
func TestPanelUnits(t *testing.T) {
	scale := func(key string) float64 {
		e, ok := figure.Find(key)
		symbol := e.Unit
		if symbol == "" {
			symbol = unit.Preferred(e.Kind, unit.EU)
		}
		u, found := unit.Find(e.Kind, symbol)
		if !ok || !found {
			t.Fatalf("%s has no unit", key)
		}
		return u.Scale
	}
	for _, vacuum := range []string{"hotfill.vacuum", "hotfill.vacuum.settled", "vacuum.collapse"} {
		numtest.Near(t, vacuum, scale("panel.compliance")*scale(vacuum)/scale("hotfill.panel.need"), 1, 1e-12)
	}
	for _, p := range Check(example(t, "wrenhollow.yaml"), nil).Plots {
		for _, a := range []Axis{p.X, p.Y} {
			if a = a.In(unit.EU); p.Stage == "hotfill" && a.Kind == unit.Compliance && a.Unit != "" && a.Unit != unit.Preferred(unit.Compliance, unit.EU) {
				t.Errorf("%s in %s", p.Key, a.Unit)
			}
		}
	}
}

// TestFreeBubble: a blow without a mould has no field of the bottle: its plots
// run along the bubble, the wall of the bottle stays the preview, and what is
// absent is said not to come.
func TestFreeBubble(t *testing.T) {
	if testing.Short() {
		t.Skip("a full run")
	}
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Blow.Free = true
	r, err := Full(t.Context(), doc, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	seen := false
	for _, p := range r.Plots {
		wordedPlot(t, "preview", p.In(unit.EU))
		if strings.HasPrefix(p.Key, "blow.") && strings.Contains(p.X.Label, "arc") {
			seen = true
			if p.X.Label == "arc from the gate" {
				t.Errorf("%s of the bubble stands along the bottle", p.Key)
			}
		}
		if p.Key == "wall.arc" && len(p.Series) != 1 {
			t.Errorf("%d walls", len(p.Series))
		}
	}
	if !seen || r.Blown() {
		t.Errorf("the bubble is shown: %v, blown: %v", seen, r.Blown())
	}
	for _, a := range r.Absent {
		if a.Full || a.Plot == "reheat.bottle" && !strings.Contains(a.Why, "blow.free") {
			t.Errorf("%+v", a)
		}
	}
	for _, a := range Check(doc, nil).Absent {
		if strings.HasPrefix(a.Plot, "strength.") && a.Full {
			t.Errorf("a preview promises %s", a.Plot)
		}
	}
}
