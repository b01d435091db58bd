package chart

import (
	"encoding/xml"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

func TestSVG(t *testing.T) {
	c := Chart{
		Title: "Wall along the bottle", X: "arc from gate, mm", Y: "wall, mm",
		Series: []Series{
			{Name: "blown", X: []float64{0, 1, 2}, Y: []float64{1, 0.3, 0.28}, Lo: []float64{0.9, 0.27, 0.25}, Hi: []float64{1.1, 0.33, 0.31}},
			{Name: "measured", X: []float64{1, 2}, Y: []float64{0.29, 0.27}, Points: true},
			{Name: "preview", X: []float64{0, 2}, Y: []float64{1, 0.3}, Dashed: true},
		},
		Marks: []Mark{{At: 1, Label: "plane"}},
	}
	b, err := SVG(160, 180, c, c)
	if err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(strings.NewReader(string(b)))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("not XML: %v", err)
		}
	}
	for _, want := range []string{"blown", "measured", "plane", "arc from gate, mm"} {
		if !strings.Contains(string(b), want) {
			t.Errorf("the picture lacks %q", want)
		}
	}
	again, err := SVG(160, 180, c, c)
	if err != nil || string(again) != string(b) {
		t.Error("the same chart gives another picture")
	}
}

func TestRefusals(t *testing.T) {
	for name, s := range map[string]Series{
		"lengths": {X: []float64{1}, Y: []float64{1, 2}},
		"empty":   {},
		"nan":     {X: []float64{1}, Y: []float64{math.NaN()}},
		"band":    {X: []float64{1}, Y: []float64{1}, Lo: []float64{1}},
	} {
		if _, err := SVG(100, 100, Chart{Series: []Series{s}}); err == nil {
			t.Errorf("%s is not refused", name)
		}
	}
	if _, err := SVG(100, 100); err == nil {
		t.Error("no chart is not refused")
	}
}

// A shape keeps its form: a circle is one; labels of near marks stand in rows.
func TestEqualAndRows(t *testing.T) {
	c := Chart{X: "x, mm", Y: "y, mm", Equal: true, Series: []Series{{Name: "round", X: []float64{-40, 0, 40, 0, -40}, Y: []float64{0, 40, 0, -40, 0}}}}
	p, err := c.plot()
	if err != nil {
		t.Fatal(err)
	}
	box := draw.New(vgsvg.New(160*vg.Millimeter, 85*vg.Millimeter))
	equalize(p, box)
	size := p.DataCanvas(box).Size()
	x, y := float64(size.X)/(p.X.Max-p.X.Min), float64(size.Y)/(p.Y.Max-p.Y.Min)
	if math.Abs(x/y-1) > 0.01 || p.X.Max < 40 || p.Y.Max < 40 {
		t.Errorf("a unit is %g long along x, %g along y", x, y)
	}
	c.Marks = []Mark{{At: 1, Label: "a"}, {At: 1.1, Label: "b"}, {At: 60, Label: "c"}}
	if r := c.rows(80); r[0] != 0 || r[1] != 1 || r[2] != 0 {
		t.Errorf("rows %v", r)
	}
}

// The names of the curves stand inside the frame of their chart, also in a wider
// font than the one that was measured.
func TestNamesInFrame(t *testing.T) {
	long := "a curve with a name that is as long as they come"
	c := Chart{Title: "Title", X: "x", Y: "y", Series: []Series{{Name: long, X: []float64{0, 1}, Y: []float64{0, 1}}, {Name: "short", X: []float64{0, 1}, Y: []float64{1, 0}}}}
	b, err := SVG(160, 90, c)
	if err != nil {
		t.Fatal(err)
	}
	frame := regexp.MustCompile(`<path d="M([\d.]+),([\d.]+)L([\d.]+),[\d.]+L[\d.]+,([\d.]+)L[^"]*" style="[^"]*stroke:#C8C8C8`).FindStringSubmatch(string(b))
	if frame == nil {
		t.Fatal("no frame")
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	left, low, right, high := number(frame[1]), number(frame[2]), number(frame[3]), number(frame[4])
	p, err := c.plot()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{long, "short"} {
		at := regexp.MustCompile(`<text x="([\d.]+)" y="-([\d.]+)"[^>]*>` + name + `<`).FindStringSubmatch(string(b))
		if at == nil {
			t.Fatalf("%q is not in the picture", name)
		}
		x, y := number(at[1]), number(at[2])
		if end := x + wider*float64(p.Legend.TextStyle.Width(name)); x < left || end > right || y < low || y > high {
			t.Errorf("%q from %g to %g at %g lies outside the frame %g..%g, %g..%g", name, x, end, y, left, right, low, high)
		}
	}
}
