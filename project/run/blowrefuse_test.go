package run

import (
	"strings"
	"testing"

	"costrel/project/design"
	"costrel/unit"
)

// TestBlowRefusals feeds the blow what cannot be blown: each is refused with
// place, value, limit and remedy, and nothing is not a number.
func TestBlowRefusals(t *testing.T) {
	for _, o := range []struct {
		name   string
		change func(d *design.Design)
		want   []string
	}{
		{"preform larger than the mould", func(d *design.Design) { d.Preform.Wall, d.Preform.NeckWall = 0.0058, 0.0058 }, []string{"larger than the mould", "mm below the ledge", "radius of 15.600 mm", "mould 13.100 mm, 2.500 mm less", "slimmer"}},
		{"preform longer than the bottle", func(d *design.Design) { d.Preform.Body = 0.29 }, []string{"at least 5 mm", "preform.body_length less"}},
		{"rod through the base", func(d *design.Design) { d.Blow.RodGap = 0 }, []string{"rod stops at depth", "stop it at least"}},
		{"pressure below ambient", func(d *design.Design) { d.Blow.PreBlow = unit.GaugePressure(-5e4) }, []string{"pre-blow pressure -0.5 bar(g)", "above 0 bar(g)"}},
		{"oven melts it", func(d *design.Design) {
			d.Oven.Lamps, d.Oven.Overall, d.Oven.HeatTime = "power", 1.2, 90
		}, []string{"melt", "limits 78..130", "less lamp power"}},
		{"oven leaves it cold", func(d *design.Design) { d.Oven.Lamps, d.Oven.Overall = "power", 0.2 }, []string{"cold", "limit 78", "raise the power"}},
		{"lamps out of reach", func(d *design.Design) { d.Oven.Lamps, d.Oven.Overall = "lamps", 0.05 }, []string{"rated power", "are wanted", "raise overall power"}},
		{"rod thicker than the bore", func(d *design.Design) { d.Blow.RodDiameter = 25e-3 }, []string{"blow.rod_diameter 25 mm", "18.6 mm", "bore of the finish of 21.7 mm"}},
		{"a law that leaves its ground", func(d *design.Design) { d.Blow.Law = "yeoh" }, []string{"the air inside passed 112 bar(g)", "blow.law"}},
		{"no gate", func(d *design.Design) { d.Preform.Gate = 0 }, []string{"gate", "0"}},
		{"high stage before the pre-blow", func(d *design.Design) { d.Blow.HighStart = 0.005 }, []string{"blow.high_start 5.0 mm", "17.0..", "move it inside"}},
		{"high stage too early", func(d *design.Design) { d.Blow.HighDelay = 0.005 }, []string{"blow.high_delay 5.0 ms", "11.3 ms", "make it more"}},
	} {
		doc := example(t, "sorrel-lime.yaml")
		o.change(doc.Design)
		_, _, _, err := BlownWall(t.Context(), doc.Design, nil)
		if err == nil {
			t.Errorf("%s: accepted", o.name)
			continue
		}
		t.Logf("%s: %v", o.name, err)
		for _, w := range o.want {
			if !strings.Contains(unit.Spell(err.Error(), unit.EU), w) {
				t.Errorf("%s: %q lacks %q", o.name, err, w)
			}
		}
		if strings.Contains(unit.Spell(err.Error(), unit.EU), "NaN") || strings.Contains(unit.Spell(err.Error(), unit.EU), "internal fault") {
			t.Errorf("%s: %v", o.name, err)
		}
	}
}

// A free blow gives a bubble, no bottle: the preview stands, and says why.
func TestFreeBlow(t *testing.T) {
	doc := example(t, "sorrel-lime.yaml")
	doc.Design.Blow.Free = true
	done := evaluate(doc.Design, work{ctx: t.Context(), full: true, drawn: true, until: "wall"}, nil)
	b := done["blow"].out.(*Blown)
	h := b.Result.History
	if last := h[len(h)-1]; last.Widest < 0.03 || last.Contact != 0 || b.Result.Filled {
		t.Errorf("bubble of radius %.1f mm, contact %g, filled %v", last.Widest*1e3, last.Contact, b.Result.Filled)
	}
	w := done["wall"].out.(*Wall)
	if w.Blown != nil {
		t.Error("a free blow made a wall")
	}
	found := false
	for _, p := range done["wall"].problems {
		found = found || strings.Contains(p.Reason, "blow.free")
	}
	if !found {
		t.Error("nothing says that the preview stands for a free blow")
	}
}
