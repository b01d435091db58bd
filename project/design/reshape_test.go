package design

import (
	"math"
	"os"
	"strings"
	"testing"
)

func example(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile("../../examples/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestReshape(t *testing.T) {
	text := example(t, "sorrel-lime.yaml")
	load := func(text string) Bottle {
		t.Helper()
		doc, err := Load("", text)
		if err != nil {
			t.Fatalf("%v", err)
		}
		return doc.Design.Bottle
	}
	was := load(text)
	for _, c := range []struct {
		path, value string
		check       func(b Bottle) bool
	}{
		{"bottle.height", "315 mm", func(b Bottle) bool {
			n := len(b.Profile) - 1
			return near(b.Height, 0.315) && near(b.Profile[n].Z, was.Profile[n].Z+0.01) && near(b.Profile[3].Z, was.Profile[3].Z) && near(b.PanelTo, was.PanelTo+0.01) && near(b.Planes[1], was.Planes[1]+0.01) && near(b.Planes[0], was.Planes[0])
		}},
		{"bottle.diameter", "4 in", func(b Bottle) bool {
			n := len(b.Profile) - 1
			return near(b.Diameter, 0.1016) && near(b.Profile[n].R, was.Profile[n].R) && near(b.Profile[0].R, was.Profile[0].R*0.1016/0.101)
		}},
		{"bottle.panel_diameter", "98 mm", func(b Bottle) bool { return near(b.PanelDiameter, 0.098) && near(b.Diameter, was.Diameter) }},
		{"preform.wall", "3.7 mm", func(Bottle) bool { return true }},
	} {
		out, err := Reshape(text, c.path, c.value)
		if err != nil {
			t.Errorf("%s: %v", c.path, err)
			continue
		}
		if b := load(out); !c.check(b) {
			t.Errorf("%s: %+v", c.path, b)
		}
		if !strings.Contains(out, "# outer radius, the base averaged round the feet") {
			t.Errorf("%s: the comment is gone", c.path)
		}
	}
	bent := strings.Replace(text, "- [48, 50.5]", "- [48, 50.5, arc 90 mm]", 1)
	bent = strings.Replace(bent, "columns: [z mm, r mm]", "columns: [z mm, r mm, via]", 1)
	for _, c := range [][3]string{{bent, "bottle.diameter", "105 mm"}, {text, "bottle.diameter", "20 mm"}, {text, "bottle.diameter", "wide"}, {text, "bottle.height", "100 mm"}} {
		if out, err := Reshape(c[0], c[1], c[2]); err == nil {
			t.Errorf("%s to %s: no error\n%s", c[1], c[2], out)
		}
	}
	if out, err := Reshape(minimal("csd-1500"), "bottle.diameter", "92 mm"); err != nil || !strings.Contains(out, "diameter: 92 mm") {
		t.Errorf("a drawn profile: %v\n%s", err, out)
	}
}

func near(a, b float64) bool { return math.Abs(a-b) < 2e-7 }
