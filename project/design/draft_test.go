package design

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/unit"
)

// A draft without answers is the template.
func TestDraftOfTemplate(t *testing.T) {
	for _, class := range Classes() {
		text, err := Draft(class, map[string]string{"name": "Sorrel: lime"})
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count(text, "\n"); n != 5 {
			t.Errorf("%s: %d lines for nothing said:\n%s", class, n, text)
		}
		doc, err := Load("", text)
		if err != nil {
			t.Fatal(err)
		}
		if doc.Design.Name != "Sorrel: lime" || doc.Design.Class != class {
			t.Errorf("%s: %q of class %s", class, doc.Design.Name, doc.Design.Class)
		}
	}
}

// Whatever size is asked for, the draft loads, holds the volume with the
// template's share of headspace, keeps the ratios, and has round numbers.
func TestDraftFits(t *testing.T) {
	checks := flag.Lookup("rapid.checks")
	if checks.Value.String() == checks.DefValue { // a draft solves for its size: fewer will do
		if err := flag.Set("rapid.checks", "40"); err != nil {
			t.Fatal(err)
		}
		defer func() { _ = flag.Set("rapid.checks", checks.DefValue) }()
	}
	rapid.Check(t, func(t *rapid.T) {
		class := rapid.SampledFrom(Classes()).Draw(t, "class")
		from, err := Load("", minimal(class))
		if err != nil {
			t.Fatal(err)
		}
		factor := rapid.Float64Range(0.6, 1.6).Draw(t, "factor")
		mL := math.Round(from.Design.Brief.Nominal * 1e6 * factor / 10)
		answers := map[string]string{"brief.nominal": fmt.Sprintf("%g cL", mL)}
		grow := math.Cbrt(factor) * rapid.Float64Range(0.93, 1.07).Draw(t, "slim")
		switch rapid.IntRange(0, 2).Draw(t, "fixed") {
		case 1:
			answers["bottle.height"] = fmt.Sprintf("%.0f mm", from.Design.Bottle.Height*1e3*grow)
		case 2:
			answers["bottle.diameter"] = fmt.Sprintf("%.1f mm", from.Design.Bottle.Diameter*1e3*grow)
		}
		text, err := Draft(class, answers)
		if err != nil {
			t.Fatalf("%v: %v", answers, err)
		}
		doc, err := Load("", text)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range doc.Warnings {
			if w.Path != "preform.inner_diameter" {
				t.Errorf("%v: %v", answers, w)
			}
		}
		a, err := measure(from.Design)
		if err != nil {
			t.Fatal(err)
		}
		b, err := measure(doc.Design)
		if err != nil {
			t.Fatal(err)
		}
		was, is := a.brimful/from.Design.Brief.Nominal, b.brimful/doc.Design.Brief.Nominal
		D := doc.Design.Bottle.Diameter
		half := 0.5e-3 * math.Pi / 4 * D * D / doc.Design.Brief.Nominal // half a millimetre of height
		if math.Abs(is-was) > half+0.0005 {
			t.Errorf("%v: brimful over nominal %.4f, template %.4f\n%s", answers, is, was, text)
		}
		p, q := from.Design.Preform, doc.Design.Preform
		hoopA, hoopB := from.Design.Bottle.PanelDiameter/p.InnerDiameter, doc.Design.Bottle.PanelDiameter/q.InnerDiameter
		held := q.InnerDiameter >= doc.Design.Finish.Bore-coreClearance-1e-4 || q.InnerDiameter/2+q.NeckWall > doc.neckRadius() // by bore or neck
		if !held && math.Abs(hoopB/hoopA-1) > 0.01 {
			t.Errorf("%v: hoop ratio %.3f, template %.3f", answers, hoopB, hoopA)
		}
		for _, line := range strings.Split(text, "\n") {
			key, value, _ := strings.Cut(strings.TrimSpace(line), ": ")
			num, ok := strings.CutSuffix(value, " mm")
			if _, point, has := strings.Cut(num, "."); ok && has && len(point) > 1 {
				t.Errorf("%v: silly number %s: %s", answers, key, value)
			}
		}
	})
}

// A large draft has a preform that its neck lets in, a small one a rod that its
// core does; outside the volumes that blow it says so.
func TestDraftBlowable(t *testing.T) {
	for class := range blowable {
		for _, v := range []string{"0.2 L", "0.4 L", "2.5 L", "4 L"} {
			text, err := Draft(class, map[string]string{"brief.nominal": v})
			if err != nil {
				t.Fatalf("%s %s: %v", class, v, err)
			}
			doc, err := Load("", text)
			if err != nil {
				t.Fatal(err)
			}
			d := doc.Design
			if over := d.Preform.InnerDiameter/2 + d.Preform.NeckWall - doc.neckRadius(); over > 0.9e-3 {
				t.Errorf("%s %s: the preform is %.2f mm wider than the neck", class, v, over*1e3)
			}
			if d.Blow.RodDiameter > d.Preform.InnerDiameter-rodPlay+1e-9 {
				t.Errorf("%s %s: rod %g in a core of %g", class, v, d.Blow.RodDiameter, d.Preform.InnerDiameter)
			}
			r := blowable[class]
			if out, said := d.Brief.Nominal < r[0] || d.Brief.Nominal > r[1], strings.Contains(text, "# Beware: drafts of "+class); out != said {
				t.Errorf("%s %s: outside %v, told %v", class, v, out, said)
			}
		}
	}
	if len(blowable) != len(Classes()) {
		t.Errorf("volumes of %d classes of %d", len(blowable), len(Classes()))
	}
}

func TestDraftSaysNo(t *testing.T) {
	for _, c := range []struct {
		class   string
		answers map[string]string
		says    []string
	}{
		{"csd1500", nil, []string{"no template", "nearest: csd-1500"}},
		{"../csd-1500", nil, []string{"no template"}},
		{"common", nil, []string{"no template"}},
		{"csd-1500", map[string]string{"brief.nominal": "1.25", "drink.carbonation": "4 bar", "bottle.heigth": "3 mm"}, []string{"brief.nominal: \"1.25\" needs a unit", "drink.carbonation: \"4 bar\"", "nearest: bottle.height"}},
		{"csd-1500", map[string]string{"brief.nominal": "50 L"}, []string{"0.05 L to 10 L"}},
		{"csd-1500", map[string]string{"bottle.profile": "x", "class": "csd-500"}, []string{"bottle.profile: not a value", "class: not a value"}},
		{"csd-1500", map[string]string{"brief.nominal": "1.5 L", "bottle.height": "200 mm", "bottle.diameter": "80 mm"}, []string{"give only one of the two"}},
		{"csd-1500", map[string]string{"brief.nominal": "1.5 L", "bottle.height": "60 mm"}, []string{`bottle.height "60 mm": no bottle in the proportions`, "expected ", " mm or more, the nearest that works"}},
		{"csd-1500", map[string]string{"brief.nominal": "60 mL"}, []string{`brief.nominal "60 mL": it leads to preform.inner_diameter`, " mL or more, the nearest that works"}},
		{"csd-1500", map[string]string{"brief.nominal": "8 L", "bottle.height": "60 mm", "bottle.diameter": "30 mm"}, []string{"fewer of bottle.diameter, bottle.height, brief.nominal"}},
		{"csd-1500", map[string]string{"drink.fill_temperature": "85 °C"}, []string{"drink.fill_temperature: 85 °C", "not heat-set", "below 60 °C"}},
		{"still-500", map[string]string{"finish.type": "28-shrt-csd"}, []string{"28-short-csd"}},
	} {
		text, err := Draft(c.class, c.answers)
		if err == nil {
			t.Errorf("%s %v gave\n%s", c.class, c.answers, text)
			continue
		}
		for _, s := range c.says {
			if !strings.Contains(unit.Spell(err.Error(), unit.EU), s) {
				t.Errorf("%s %v: %q does not say %q", c.class, c.answers, err, s)
			}
		}
	}
}

// The nearest answer that is named works, and what lies 2 % towards the refused
// one does not.
func TestDraftNearest(t *testing.T) {
	_, err := Draft("csd-1500", map[string]string{"bottle.diameter": "1.2 in"})
	var f *AnswerFault
	if !errors.As(err, &f) || f.Path != "bottle.diameter" {
		t.Fatal(err)
	}
	if _, err := Draft("csd-1500", map[string]string{"bottle.diameter": f.Nearest}); err != nil {
		t.Errorf("%s: %v", f.Nearest, err)
	}
	q, err := unit.Parse(unit.Length, f.Nearest)
	if err != nil || q.Symbol != "in" {
		t.Fatalf("%+v %v", q, err)
	}
	if _, err := Draft("csd-1500", map[string]string{"bottle.diameter": unit.Format(unit.Length, q.SI*0.98, "mm", 6)}); err == nil {
		t.Errorf("less than %s works too", f.Nearest)
	}
}

// Answers are written as they were given, each under its section.
func TestDraftAnswers(t *testing.T) {
	text, err := Draft("csd-500", map[string]string{
		"name": "Lime", "brief.customer": "A # B", "brief.shelf_life": "16 weeks", "drink.carbonation": "7.9 g/L", "bottle.base.type": "petaloid",
		"closure.tethered": "yes", "note": "first try", "preform.section_targets.panel": "8 g", "preform.section_targets.base": "5 g", "preform.section_targets.shoulder": "6 g",
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"\nnote: first try\n", "\nbrief:\n  customer: \"A # B\"\n  shelf_life: 16 weeks\n", "\ndrink:\n  carbonation: 7.9 g/L\n", "\nclosure:\n  tethered: yes\n", "\nbottle:\n  base:\n    type: petaloid\n", "  section_targets:\n    shoulder: 6 g\n    panel: 8 g\n    base: 5 g\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("lacks %q:\n%s", want, text)
		}
	}
}

// A scaled draft scales the template's limits on volumes.
func TestDraftLimits(t *testing.T) {
	text, err := Draft("csd-1500", map[string]string{"brief.nominal": "1 L"})
	if err != nil {
		t.Fatal(err)
	}
	doc, err := Load("", text)
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, l := range doc.Design.Limits {
		if l.Figure == "bottle.headspace" {
			n++
			if q, err := unit.Parse(unit.Volume, l.Value); err != nil || math.Abs(q.SI-20e-6) > 1e-9 {
				t.Errorf("headspace limit %s, want 20 mL", l.Value)
			}
		}
	}
	if n != 1 {
		t.Errorf("%d limits on the headspace", n)
	}
}
