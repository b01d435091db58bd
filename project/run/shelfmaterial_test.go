package run

import (
	"strings"
	"testing"
)

// why returns what is said of a key that is left out, or of a stage.
func why(r *Result, key string) string {
	var out []string
	for _, p := range r.Problems {
		if p.Key == key {
			out = append(out, p.Reason)
		}
	}
	return strings.Join(out, "; ")
}

// TestGlassIsTight: glass under a closure that passes nothing loses nothing;
// its life has no end to show, and a coating on it is named and left out.
func TestGlassIsTight(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	d := doc.Design
	pet := Check(doc, NewCache(32))
	d.Shelf.Material, d.Shelf.Coating, d.Shelf.Improve, d.Shelf.Scavenger = "glass", "inner", 10, 1e-3
	d.Closure.CO2 = 0
	for _, m := range []string{"glass", "metal"} {
		d.Shelf.Material = m
		r := Check(doc, NewCache(32))
		if x := value(t, r, "shelf.loss.end"); x < -1e-3 || x > 2e-3 {
			t.Errorf("%s loses %.3f %%", m, 100*x)
		}
		if w := why(r, "shelf.life"); !strings.Contains(w, "not reached within 4.5 times the shelf life") && !strings.Contains(w, "does not reach its limit") {
			t.Errorf("%s: life: %q", m, w)
		}
		for _, want := range []string{"a coating on glass or metal changes nothing here; leave it out (shelf.material is " + m, "scavenger is left out"} {
			if strings.Contains(want, "coating") && !strings.Contains(why(r, "shelf.coating"), want) || !strings.Contains(strings.Join(figureOf(t, r, "shelf.loss.end").Origin.Warnings, ";"), want) {
				t.Errorf("%s: %q is not said of %q", m, want, why(r, "shelf.coating"))
			}
		}
		// By hand: 4.2 GPa and 2.5 - 2 * 0.38 against 72 GPa and 2.5 - 2 * 0.22.
		got, want := value(t, r, "growth.volume.day1"), 0.0
		if m == "glass" {
			want = value(t, pet, "growth.volume.day1") / 1.2 * 4.2 / 72 * (2.5 - 2*0.22) / (2.5 - 2*0.38)
		}
		if got < 0.9*want || got > 1.1*want {
			t.Errorf("%s grows %g, want about %g", m, got, want)
		}
	}
}

// TestSoftMaterials: HDPE and PP grow by their own modulus, the stiffer less.
func TestSoftMaterials(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	grown := map[string]float64{}
	for _, m := range []string{"wall", "pp", "hdpe"} {
		doc.Design.Shelf.Material = m
		grown[m] = value(t, Check(doc, NewCache(32)), "growth.volume.day1")
	}
	if !(grown["wall"] < grown["pp"] && grown["pp"] < grown["hdpe"] && grown["hdpe"] > 3*grown["wall"]) {
		t.Error(grown)
	}
}

// TestIdleShelfInputs: what does nothing is said.
func TestIdleShelfInputs(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	s := &doc.Design.Shelf
	if n := materialNotes(doc.Design); n != nil {
		t.Error(n)
	}
	s.Coating = "inner"
	if n := materialNotes(doc.Design); len(n) != 1 || !strings.Contains(n[0], "does nothing while shelf.coating_improvement is 1") {
		t.Error(n)
	}
	s.Coating, s.Improve = "none", 8
	if n := materialNotes(doc.Design); len(n) != 1 || !strings.Contains(n[0], "8 does nothing while shelf.coating is none") {
		t.Error(n)
	}
}

// TestOverfull: a fill that does not fit is refused alike everywhere.
func TestOverfull(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Brief.Nominal = 2.2e-3
	r := Check(doc, NewCache(32))
	words := why(r, "bottle.headspace")
	if !strings.Contains(words, "does not fit the brimful capacity") {
		t.Fatal(words)
	}
	for _, key := range []string{"shelf.loss.end", "shelf.pressure.max", "pack.pressure.store"} {
		for _, f := range r.Figures {
			if f.Key == key {
				t.Errorf("%s is shown: %g", key, f.Value)
			}
		}
	}
	said := 0
	for _, p := range r.Problems {
		if (p.Stage == "shelf" || p.Stage == "pressure") && strings.Contains(p.Reason, words) {
			said++
		}
	}
	if said < 2 {
		t.Errorf("%+v", r.Problems)
	}
}
