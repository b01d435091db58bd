package design

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"costrel/physics/bottle"
)

// The drawn profile rises from the standing ring to the ledge and stays
// between neck and body.
func TestOutline(t *testing.T) {
	for _, class := range Classes() {
		doc, err := Load("", minimal(class))
		if err != nil {
			t.Fatal(err)
		}
		b := doc.Design.Bottle
		ledge, neck := b.Height-doc.Design.Finish.Height, doc.neckRadius()
		rows := Outline(b, ledge, neck)
		first, last := rows[0], rows[len(rows)-1]
		if first.Z != 0 || first.R != b.Base.Standing/2 || abs(last.Z-ledge) > 1e-12 || abs(last.R-neck) > 1e-12 {
			t.Errorf("%s: from %v to %v, want from (0, %g) to (%g, %g)", class, first, last, b.Base.Standing/2, ledge, neck)
		}
		widest := 0.0
		for i, r := range rows {
			widest = max(widest, r.R)
			if i > 0 && r.Z <= rows[i-1].Z {
				t.Errorf("%s: row %d does not rise: %v after %v", class, i, r, rows[i-1])
			}
			if r.R > b.Diameter/2+1e-12 || r.R < min(neck, b.Base.Standing/2)-1e-12 {
				t.Errorf("%s: row %d has radius %g", class, i, r.R)
			}
		}
		if abs(widest-b.Diameter/2) > 1e-9 {
			t.Errorf("%s: widest radius %g, want %g", class, widest, b.Diameter/2)
		}
	}
}

// A hemisphere drawn from the main dimensions is one: the volume below the cut
// at the top of the cap, and below one in the straight body, is that of the
// sphere and the cylinder.
func TestOutlineHemisphere(t *testing.T) {
	for _, c := range []struct{ height, top float64 }{{52e-3, 45e-3}, {45e-3, 45e-3}, {20e-3, 20e-3}} {
		doc, err := Load("", minimal("csd-1500")+fmt.Sprintf("bottle: {base: {type: hemisphere, height: %g mm}}\n", c.height*1e3))
		if err != nil {
			t.Fatalf("cap of %g m: %v", c.height, err)
		}
		b, err := bottle.New(doc.Design.Shape())
		if err != nil {
			t.Fatal(err)
		}
		const R, up = 45e-3, 5e-3
		if d := b.MaxDiameter(); abs(d-2*R) > 1e-12 {
			t.Fatalf("diameter %g", d)
		}
		o := b.Outline()
		got, _ := o.Below(c.top + up)
		want := math.Pi*c.top/6*(3*R*R+c.top*c.top) + math.Pi*R*R*up
		if abs(got/want-1) > 1e-9 {
			t.Errorf("cap of %g m: volume %.9g, closed form %.9g", c.top, got, want)
		}
	}
}

// The gate of a petaloid base lies below the top of its feet.
func TestPetaloidPushUp(t *testing.T) {
	_, err := Load("", minimal("csd-1500")+"bottle: {base: {push_up: 55 mm}}\n")
	if err == nil || !strings.Contains(err.Error(), "top of its feet") {
		t.Errorf("push-up over the base height: %v", err)
	}
}

func TestVia(t *testing.T) {
	for _, c := range []struct {
		text, word string
		radius     float64
	}{{"", "line", 0}, {"line", "line", 0}, {" curve ", "curve", 0}, {"arc 35 mm", "arc", 35e-3}, {"arc -1 in", "arc", -25.4e-3}} {
		word, radius, err := Via(c.text)
		if err != nil || word != c.word || abs(radius-c.radius) > 1e-15 {
			t.Errorf("Via(%q) = %q, %g, %v", c.text, word, radius, err)
		}
	}
	for _, bad := range []string{"arc", "arc 35", "arc 3 g", "line 3", "spline", "Arc 3 mm"} {
		if word, _, err := Via(bad); err == nil {
			t.Errorf("Via(%q) = %q", bad, word)
		}
	}
}

func TestExamplesLoad(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) < 3 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := Load(filepath.Base(file), string(text))
		if err != nil {
			t.Errorf("%v", err)
			continue
		}
		for _, w := range doc.Warnings {
			t.Errorf("%v", w)
		}
	}
}
