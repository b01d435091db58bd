package run

import (
	"math"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"costrel/cite"
	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

func example(t testing.TB, name string) *design.Document {
	t.Helper()
	return document(t, filepath.Join("..", "..", "examples"), name)
}

// document loads a design from a folder.
func document(t testing.TB, folder, name string) *design.Document {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(folder, name))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := design.Load(name, string(b))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

var examples = []string{"sorrel-lime.yaml", "wrenhollow.yaml", "ravensholt-old.yaml", "ravensholt-new.yaml"}

// everyDocument returns the demo designs and a bare design of each class.
func everyDocument(t testing.TB) map[string]*design.Document {
	out := map[string]*design.Document{}
	for _, e := range examples {
		out[e] = example(t, e)
	}
	for _, c := range design.Classes() {
		doc, err := design.Load(c, "schema: 1\nname: bare "+c+"\nclass: "+c+"\n")
		if err != nil {
			t.Fatalf("%s: %v", c, err)
		}
		out[c] = doc
	}
	return out
}

func value(t testing.TB, r *Result, key string) float64 {
	t.Helper()
	for _, f := range r.Figures {
		if f.Key == key {
			return f.Value
		}
	}
	for _, p := range r.Problems {
		if p.Key == key {
			t.Fatalf("%s is left out: %s", key, p.Reason)
		}
	}
	t.Fatalf("%s is missing without a reason", key)
	return 0
}

// TestHandCalculations compares the demo designs with calculations made by
// hand from the same inputs: cylinders and cones, the two-parameter solubility
// law, thin-cylinder stress, capped balance, trade air.
func TestHandCalculations(t *testing.T) {
	bar := 1e5
	for _, c := range []struct {
		file, key       string
		want, tolerance float64
	}{
		{"sorrel-lime.yaml", "preform.mass", 38.81e-3, 0.05e-3},
		{"sorrel-lime.yaml", "bottle.volume.brimful", 1811.3e-6, 1.811e-6},
		{"sorrel-lime.yaml", "pack.pressure.store", 4.29 * bar, 0.02 * bar},
		{"sorrel-lime.yaml", "pack.pressure.hot", 7.04 * bar, 0.02 * bar},
		{"sorrel-lime.yaml", "preform.ratio.hoop.inner", 5.02, 0.02},
		{"sorrel-lime.yaml", "preform.ratio.hoop.mid", 4.26, 0.02},
		{"sorrel-lime.yaml", "preform.ratio.axial", 2.96, 0.04},
		{"sorrel-lime.yaml", "preform.ratio.planar", 12.58, 0.15},
		{"sorrel-lime.yaml", "wall.panel.mean", 0.281e-3, 0.004e-3},
		{"sorrel-lime.yaml", "section.shoulder.mass", 13.1e-3, 0.05e-3},
		{"sorrel-lime.yaml", "section.panel.mass", 15.5e-3, 0.05e-3},
		{"sorrel-lime.yaml", "section.base.mass", 10.2e-3, 0.05e-3},
		{"sorrel-lime.yaml", "pack.stress.hoop.store", 75e6, 1.5e6},
		{"sorrel-lime.yaml", "pack.stress.hoop.hot", 124e6, 2.5e6},
		{"sorrel-lime.yaml", "pack.mass", 1.852, 0.02},
		{"sorrel-lime.yaml", "stack.load", 250, 3},
		{"sorrel-lime.yaml", "air.volume", 71.4e-3, 0.15e-3},
		{"sorrel-lime.yaml", "air.volume.net", 42.8e-3, 0.1e-3},
		{"wrenhollow.yaml", "preform.mass", 27.5e-3, 0.06e-3},
		{"wrenhollow.yaml", "bottle.volume.brimful", 538e-6, 1e-6},
		{"wrenhollow.yaml", "hotfill.vacuum", 18.1e3, 0.3e3},
		{"wrenhollow.yaml", "hotfill.panel.need", 20.4e-6, 0.4e-6},
		{"wrenhollow.yaml", "hotfill.contraction", 0.0298, 0.0003},
		{"ravensholt-old.yaml", "preform.mass", 36.2e-3, 0.06e-3},
		{"ravensholt-new.yaml", "preform.mass", 34.0e-3, 0.06e-3},
		{"ravensholt-old.yaml", "pack.pressure.store", 4.04 * bar, 0.02 * bar},
		{"ravensholt-old.yaml", "pack.pressure.hot", 6.66 * bar, 0.02 * bar},
		{"ravensholt-new.yaml", "closure.lift", 325, 3},
		{"ravensholt-old.yaml", "preform.ratio.hoop.inner", 4.65, 0.02},
		{"ravensholt-old.yaml", "preform.ratio.hoop.mid", 3.99, 0.02},
		{"ravensholt-new.yaml", "preform.ratio.hoop.mid", 4.01, 0.02},
		{"ravensholt-old.yaml", "preform.ratio.axial", 2.87, 0.06},
		{"ravensholt-old.yaml", "air.volume", 66.6e-3, 0.5e-3},
		{"ravensholt-new.yaml", "air.volume", 62.9e-3, 0.5e-3},
		{"ravensholt-old.yaml", "pack.stress.hoop.store", 65e6, 1.5e6},
		{"ravensholt-new.yaml", "pack.stress.hoop.store", 67.5e6, 1.5e6},
	} {
		got := value(t, Check(example(t, c.file), NewCache(64)), c.key)
		if math.Abs(got-c.want) > c.tolerance {
			t.Errorf("%s %s = %g, by hand %g ± %g", c.file, c.key, got, c.want, c.tolerance)
		}
	}
}

// contract lists the keys that the JSON must have, or give a reason for.
var contract = []string{
	"preform.mass", "preform.ratio.hoop.inner", "preform.ratio.hoop.mid", "preform.ratio.axial", "preform.ratio.planar", "bottle.volume.brimful", "bottle.volume.fill",
	"bottle.headspace", "bottle.area", "bottle.height", "wall.min", "wall.panel.mean", "section.shoulder.mass", "section.panel.mass", "section.base.mass",
	"pack.pressure.fill", "pack.pressure.store", "pack.pressure.hot", "pack.stress.hoop.store", "shelf.loss.end", "hotfill.contraction", "hotfill.vacuum",
	"closure.lift", "stack.load", "air.volume", "air.energy", "cost.total",
}

func TestContractKeys(t *testing.T) {
	everywhere := map[string]bool{}
	for name, doc := range everyDocument(t) {
		r := Check(doc, nil)
		have := map[string]bool{}
		for _, f := range r.Figures {
			have[f.Key], everywhere[f.Key] = true, true
		}
		reasons := map[string]string{}
		for _, p := range r.Problems {
			reasons[p.Key] = p.Reason
			if strings.Contains(p.Reason, "internal fault") {
				t.Errorf("%s: %s: %s", name, p.Key, p.Reason)
			}
		}
		for _, k := range contract {
			if !have[k] && reasons[k] == "" {
				t.Errorf("%s: %s is missing without a reason", name, k)
			}
			if have[k] && strings.HasPrefix(reasons[k], "not computed") {
				t.Errorf("%s: %s is there and said to be left out", name, k)
			}
		}
	}
	for _, k := range contract {
		if !everywhere[k] {
			t.Errorf("no design computes %s", k)
		}
	}
}

// TestEveryFigureHasAnOrigin fails on a figure without method, source or
// inputs, on a source that is not in the list, and on numbers that are not.
func TestEveryFigureHasAnOrigin(t *testing.T) {
	for name, doc := range everyDocument(t) {
		for _, f := range Check(doc, nil).Figures {
			at := name + " " + f.Key
			if f.Origin.Kind != figure.Computed {
				t.Errorf("%s: origin %q", at, f.Origin.Kind)
			}
			if f.Origin.Method == "" || len(f.Origin.Sources) == 0 || len(f.Origin.Inputs) == 0 || f.Origin.Equation == "" {
				t.Errorf("%s: a computed figure names method, equation, sources and inputs: %+v", at, f.Origin)
			}
			if _, err := os.Stat(filepath.Join("..", "..", "docs", "theory", f.Origin.Theory+".md")); err != nil {
				t.Errorf("%s: theory page %q: %v", at, f.Origin.Theory, err)
			}
			for _, s := range f.Origin.Sources {
				if _, ok := cite.Lookup(s); !ok {
					t.Errorf("%s: source %q is not in the list", at, s)
				}
			}
			for _, in := range f.Origin.Inputs {
				if in.Symbol == "" || in.Label == "" || in.Kind == "" || isBad(in.Value) {
					t.Errorf("%s: input %+v lacks symbol, label, kind or value", at, in)
				}
				if path, ok := designPath(in.Key); ok {
					if _, known := design.Lookup(path); !known {
						t.Errorf("%s: input %s is no path of the design", at, in.Key)
					}
				} else if _, known := figure.Find(in.Key); !known {
					t.Errorf("%s: input %s is neither a figure nor a path", at, in.Key)
				}
			}
			if isBad(f.Lo) || isBad(f.Hi) || f.Lo > f.Value || f.Hi < f.Value {
				t.Errorf("%s: band %g … %g does not hold %g", at, f.Lo, f.Hi, f.Value)
			}
		}
	}
}

// TestStagesReadWhatTheySay changes every number of the design in turn and
// compares a run with warm cache against a run from scratch: a stage that
// reads what it does not declare would answer with the old result.
func TestStagesReadWhatTheySay(t *testing.T) {
	for _, name := range []string{"sorrel-lime.yaml", "wrenhollow.yaml"} {
		base := example(t, name).Design
		cache := NewCache(4096)
		evaluate(base, preview, cache)
		for _, it := range design.Walk() {
			v, _, ok := base.Number(it.Path)
			if !ok || it.Table {
				continue
			}
			c := base.Clone()
			c.SetNumber(it.Path, clip(it.Path, v*1.013+1e-12))
			warm, cold := collect(evaluate(c, preview, cache)), collect(evaluate(c, preview, nil))
			if len(warm) != len(cold) {
				t.Errorf("%s: %s: %d figures with cache, %d without", name, it.Path, len(warm), len(cold))
				continue
			}
			for i := range warm {
				if warm[i].Key != cold[i].Key || warm[i].Value != cold[i].Value {
					t.Errorf("%s: a change of %s does not reach %s through the cache", name, it.Path, warm[i].Key)
				}
			}
		}
	}
}

// TestOneFailureHidesNoOther fills more than the bottle holds: the figures
// that do not need the headspace still stand.
func TestOneFailureHidesNoOther(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Brief.Nominal = 1.9e-3
	r := Check(doc, nil)
	value(t, r, "preform.mass")
	value(t, r, "wall.min")
	value(t, r, "air.volume")
	found := false
	for _, p := range r.Problems {
		if p.Key == "bottle.headspace" && strings.Contains(p.Reason, "does not fit") {
			found = true
		}
	}
	if !found {
		t.Error("the overfull bottle is not reported")
	}
}

// TestLighterPreformThinnerWall moves one input and looks at the sign.
func TestLighterPreformThinnerWall(t *testing.T) {
	doc := example(t, "ravensholt-old.yaml")
	before := Check(doc, nil)
	doc.Design.Preform.Wall -= 0.1e-3
	after := Check(doc, nil)
	for _, key := range []string{"preform.mass", "wall.panel.mean", "cost.resin", "footprint.total"} {
		if value(t, after, key) >= value(t, before, key) {
			t.Errorf("%s does not fall with the preform wall", key)
		}
	}
	for _, key := range []string{"pack.stress.hoop.store", "shelf.loss.end"} {
		if value(t, after, key) <= value(t, before, key) {
			t.Errorf("%s does not rise when the preform wall falls", key)
		}
	}
}

// Where the bottle is cut to be weighed moves grams between the sections of the
// board and nothing else.
func TestPlanesMoveNoPlastic(t *testing.T) {
	b, err := os.ReadFile("../../examples/sorrel-lime.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := design.MovePlanes(strings.ReplaceAll(string(b), "    planes: [60 mm, 190 mm]\n", ""), "bottle.planes[0]", "75 mm")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := design.Load("", text)
	if err != nil {
		t.Fatal(err)
	}
	before, after := Check(example(t, "sorrel-lime.yaml"), nil), Check(doc, nil)
	for _, key := range []string{"wall.min", "section.shoulder.mass", "bottle.volume.blown", "preform.mass"} {
		if a, b := value(t, before, key), value(t, after, key); math.Abs(a-b) > 1e-6*a {
			t.Errorf("%s was %g, is %g", key, a, b)
		}
	}
	// 15 mm of a wall of 51.1 mm mid radius by the mean wall of the panel
	got := value(t, after, "section.base.mass") - value(t, before, "section.base.mass")
	if lost := value(t, before, "section.panel.mass") - value(t, after, "section.panel.mass"); math.Abs(got-lost) > 1e-8 || got < 1.5e-3 || got > 2.3e-3 {
		t.Errorf("the base gains %g kg, the panel loses %g kg", got, lost)
	}
}

func TestCautionsFollowTheirTriggers(t *testing.T) {
	keys := func(d *design.Design) string {
		var out []string
		for _, c := range Cautions(d) {
			out = append(out, c.Key)
		}
		return strings.Join(out, " ")
	}
	a, b := example(t, "sorrel-lime.yaml").Design, example(t, "wrenhollow.yaml").Design
	for _, want := range []string{"air", "burst", "charged", "overpressure", "caustic", "drop", "food", "rights", "reuse"} {
		if !strings.Contains(keys(a), want) {
			t.Errorf("the carbonated design lacks the caution %s", want)
		}
	}
	if !strings.Contains(keys(b), "hot") || strings.Contains(keys(b), "charged") || strings.Contains(keys(b), "caustic") {
		t.Errorf("the hot-filled design has %s", keys(b))
	}
	advice := func(d *design.Design) bool {
		return slices.ContainsFunc(Cautions(d), func(c Caution) bool {
			return strings.Contains(c.In(unit.US).Text, "50 psi in a soft drink at 75 °F and 75 psi at 100 °F")
		})
	}
	if !advice(a) || advice(b) {
		t.Error("the pressures that consumers are told of belong to a carbonated drink that calls for the caution")
	}
	b.Drink.Nitrogen = 20e-6
	if !strings.Contains(keys(b), "nitrogen") {
		t.Error("a nitrogen dose calls for its caution")
	}
}

func TestVerdictsAreWorstFirst(t *testing.T) {
	r := Check(example(t, "sorrel-lime.yaml"), nil)
	rank := map[quality.Word]int{quality.Fail: 0, quality.Close: 1, quality.NotShown: 2, quality.NotComputed: 3, quality.Pass: 4}
	for i := 1; i < len(r.Verdicts); i++ {
		if rank[r.Verdicts[i].Word] < rank[r.Verdicts[i-1].Word] {
			t.Errorf("%s stands behind %s", r.Verdicts[i].Word, r.Verdicts[i-1].Word)
		}
	}
}

func BenchmarkCheck(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program runs
	doc := example(b, "sorrel-lime.yaml")
	b.ReportAllocs()
	for b.Loop() {
		Check(doc, NewCache(1024))
	}
}

// BenchmarkChange is a board after one changed input, with the stages of
// before still kept.
func BenchmarkChange(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program runs
	doc := example(b, "sorrel-lime.yaml")
	cache := NewCache(1024)
	Check(doc, cache)
	wall := doc.Design.Preform.Wall
	i := 0
	for b.Loop() {
		i++
		doc.Design.Preform.Wall = wall + float64(i%1000)*1e-7
		Check(doc, cache)
	}
}
