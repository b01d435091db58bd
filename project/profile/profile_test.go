package profile

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"costrel/num/curve"
	"costrel/project/design"
)

// drawn writes entities as an ASCII DXF file in millimetres.
func drawn(units string, entities ...string) string {
	head := "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n" + units + "\n0\nENDSEC\n"
	if units == "" {
		head = ""
	}
	return head + "0\nSECTION\n2\nENTITIES\n" + strings.Join(entities, "") + "0\nENDSEC\n0\nEOF\n"
}

func groups(kind, layer string, list ...any) string {
	var b strings.Builder
	fmt.Fprintf(&b, "0\n%s\n8\n%s\n", kind, layer)
	for i := 0; i+1 < len(list); i += 2 {
		fmt.Fprintf(&b, "%d\n%v\n", list[i], list[i+1])
	}
	return b.String()
}

func line(x0, y0, x1, y1 float64) string {
	return groups("LINE", "outline", 10, x0, 20, y0, 11, x1, 21, y1)
}

func arcOf(cx, cy, r, from, to float64) string {
	return groups("ARC", "outline", 10, cx, 20, cy, 40, r, 50, from, 51, to)
}

// punt is the right half of a small bottle with a domed base: dome of radius
// 50 with its centre below, heel of radius 6, straight body, shoulder of radius
// 20 inward then outward, neck.
func punt() []string {
	return []string{
		arcOf(40-8, 8, 8, 270, 360), // heel from (32, 0) to (40, 8)
		line(40, 8, 40, 120),
		line(40, 120, 13, 160),
		line(13, 172, 13, 160), // drawn downwards
		arcOf(0, 10-(32*32+100)/20.0, (32*32+100)/20.0, 180/math.Pi*math.Asin(((32*32+100)/20.0-10)/((32*32+100)/20.0)), 90), // dome from (32, 0) to (0, 10)
	}
}

func read(t *testing.T, name, text string, o Options) *Profile {
	t.Helper()
	p, err := Read(name, []byte(text), o)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return p
}

// meridian builds what the physics would, and so holds the rows against its
// rules.
func meridian(t *testing.T, p *Profile) *curve.Meridian {
	t.Helper()
	rows := make([]curve.Row, len(p.Rows))
	for i, w := range p.Rows {
		word, radius, err := design.Via(w.Via)
		if err != nil {
			t.Fatal(err)
		}
		rows[i] = curve.Row{Z: w.Z, R: w.R, Via: curve.Via(word), Radius: radius}
	}
	m, err := curve.New(rows, "")
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func TestTable(t *testing.T) {
	for name, text := range map[string]string{
		"mm":              "z [mm],r [mm]\n0,25\n100,40\n150,13\n",
		"decimal commas":  "z [mm];r [mm]\n0,0;25,0\n100,0;40,0\n150,0;13,0\n",
		"diameter, cm":    "d (cm)\tz (cm)\n5\t0\n8\t10\n2,6\t15\n",
		"units in cells":  "Height z;outer radius of the wall\n0 mm;25 mm\n10 cm;40 mm\n150 mm;13 mm\n",
		"from the mouth":  "z [mm],r [mm]\n150,13\n100,40\n0,25\n",
		"over the origin": "z [mm],r [mm]\n20,25\n120,40\n170,13\n",
	} {
		p := read(t, "a.csv", text, Options{})
		if len(p.Rows) != 3 {
			t.Fatalf("%s: %d rows", name, len(p.Rows))
		}
		for i, want := range [][2]float64{{0, 25e-3}, {0.1, 40e-3}, {0.15, 13e-3}} {
			near(t, name, p.Rows[i].Z, want[0], 1e-9)
			near(t, name, p.Rows[i].R, want[1], 1e-9)
		}
	}
	p := read(t, "a.csv", "z,r\n0,1\n4,1.5\n6,0.5\n", Options{Unit: "in"})
	near(t, "inches", p.Rows[1].R, 1.5*25.4e-3, 1e-12)
}

func TestDrawing(t *testing.T) {
	p := read(t, "a.dxf", drawn("4", punt()...), Options{})
	near(t, "push-up", p.PushUp, 10e-3, 1e-9)
	near(t, "standing diameter", p.Standing(), 64e-3, 1e-9)
	if len(p.Rows) != 5 || p.Rows[1].Via != "arc 8 mm" || p.Rows[2].Via != "" {
		t.Fatalf("%+v", p.Rows)
	}
	// A quarter torus, a cylinder, a cone and a neck: by Guldin's rules.
	m := meridian(t, p)
	vol, _ := m.Below(0.172)
	heel := math.Pi * (32*32*8 + math.Pi*64/4*2*(32+4*8/(3*math.Pi))) / 1e9 // Pappus: quarter disc of radius 8 at 32
	rest := math.Pi * (40*40*112 + 40.0/3*(40*40+40*13+13*13) + 13*13*12) / 1e9
	near(t, "volume", vol, heel+rest, 1e-10)
}

// The same outline in other dress.
func TestDressed(t *testing.T) {
	want := read(t, "a.dxf", drawn("4", punt()...), Options{})
	same := func(name string, p *Profile) {
		t.Helper()
		if len(p.Rows) != len(want.Rows) {
			t.Fatalf("%s: %d rows: %+v", name, len(p.Rows), p.Rows)
		}
		for i, w := range want.Rows {
			near(t, name+": z", p.Rows[i].Z, w.Z, 2e-8)
			near(t, name+": r", p.Rows[i].R, w.R, 2e-8)
			if p.Rows[i].Via != w.Via {
				t.Errorf("%s: row %d via %q, want %q", name, i, p.Rows[i].Via, w.Via)
			}
		}
		near(t, name+": push-up", p.PushUp, want.PushUp, 2e-8)
	}
	k := math.Tan(math.Pi / 8) // bulge of a quarter turn
	light := groups("LWPOLYLINE", "outline", 90, 5, 70, 0, 10, 32, 20, 0, 42, k, 10, 40, 20, 8, 10, 40, 20, 120, 10, 13, 20, 160, 10, 13, 20, 172)
	same("LWPOLYLINE", read(t, "a.dxf", drawn("4", punt()[4], light), Options{}))
	old := groups("POLYLINE", "outline", 66, 1, 70, 0) +
		groups("VERTEX", "outline", 10, 13, 20, 172) + groups("VERTEX", "outline", 10, 13, 20, 160) + groups("VERTEX", "outline", 10, 40, 20, 120) +
		groups("VERTEX", "outline", 10, 40, 20, 8, 42, -k) + groups("VERTEX", "outline", 10, 32, 20, 0) + groups("SEQEND", "outline")
	same("POLYLINE from the mouth", read(t, "a.dxf", drawn("4", punt()[4], old), Options{}))
	seen := groups("LWPOLYLINE", "outline", 90, 5, 70, 0, 210, 0, 220, 0, 230, -1, 10, -32, 20, 0, 42, -k, 10, -40, 20, 8, 10, -40, 20, 120, 10, -13, 20, 160, 10, -13, 20, 172)
	same("seen from behind", read(t, "a.dxf", drawn("4", punt()[4], seen), Options{}))
	mirror := func(text string) string { return strings.ReplaceAll(text, "mirror", "") }
	left := mirror(drawn("4",
		groups("ARC", "o", 10, -32, 20, 8, 40, 8, 50, 180, 51, 270), line(-40, 8, -40, 120), line(-40, 120, -13, 160), line(-13, 160, -13, 172),
		arcOf(0, 10-56.2, 56.2, 90, 180-180/math.Pi*math.Asin(46.2/56.2))))
	same("left half", read(t, "a.dxf", left, Options{}))
	lying := drawn("4",
		groups("ARC", "o", 10, 8, 20, 32, 40, 8, 50, 90, 51, 180), line(8, 40, 120, 40), line(120, 40, 160, 13), line(160, 13, 172, 13),
		arcOf(10-56.2, 0, 56.2, 0, 90-180/math.Pi*math.Asin(46.2/56.2)))
	same("lying", read(t, "a.dxf", lying, Options{Axis: "horizontal"}))
	same("lying, seen by its shape", read(t, "a.dxf", lying, Options{}))
	same("CRLF, a centre line, a double and a text", read(t, "a.DXF", strings.ReplaceAll(
		drawn("4", append(punt(), line(0, -10, 0, 200), line(40, 8, 40, 120), groups("TEXT", "notes", 1, "sample"))...), "\n", "\r\n"), Options{}))
	metres := drawn("6", arcOf(0.032, 0.008, 0.008, 270, 360), line(0.04, 0.008, 0.04, 0.12), line(0.04, 0.12, 0.013, 0.16), line(0.013, 0.16, 0.013, 0.172),
		arcOf(0, 0.01-0.0562, 0.0562, 180/math.Pi*math.Asin(46.2/56.2), 90))
	same("metres", read(t, "a.dxf", metres, Options{}))
	same("unit named", read(t, "a.dxf", drawn("", punt()...), Options{Unit: "mm"}))
	same("cut at the ledge", read(t, "a.dxf", drawn("4", append(punt()[:3], line(13, 160, 13, 185), line(13, 185, 17, 185), line(17, 185, 17, 200), punt()[4])...), Options{Top: 0.172}))
}

// A quarter circle is a rational quadratic with the middle weight 1/sqrt(2),
// exactly. Source: Piegl and Tiller, The NURBS Book, 1997, ch. 7 (from memory).
func TestSpline(t *testing.T) {
	quarter := groups("SPLINE", "o", 70, 4, 71, 2, 72, 6, 73, 3, 40, 0, 40, 0, 40, 0, 40, 1, 40, 1, 40, 1,
		41, 1, 41, math.Sqrt2/2, 41, 1, 10, 40, 20, 100, 10, 40, 20, 127, 10, 13, 20, 127)
	p := read(t, "a.dxf", drawn("4", line(40, 0, 40, 100), quarter, line(13, 127, 13, 140)), Options{})
	n := 0
	for _, w := range p.Rows {
		if w.Via == "curve" {
			n++
			near(t, "radius of the quarter", math.Hypot(w.R-13e-3, w.Z-0.1), 27e-3, 1e-9)
		}
	}
	if n < 8 {
		t.Errorf("%d points of the spline", n)
	}
	m := meridian(t, p)
	vol, _ := m.Below(0.14)
	q := 27.0
	want := math.Pi * (40*40*100 + 13*13*13 + 13*13*q + 2*13*math.Pi/4*q*q + 2.0/3*q*q*q) / 1e9
	near(t, "volume", vol, want, 2e-9)
	fit := groups("SPLINE", "o", 70, 8, 71, 3, 74, 3, 11, 40, 21, 100, 11, 30, 21, 115, 11, 13, 21, 127)
	p = read(t, "a.dxf", drawn("4", line(40, 0, 40, 100), fit, line(13, 127, 13, 140)), Options{})
	if len(p.Rows) != 5 || p.Rows[2].Via != "curve" {
		t.Errorf("%+v", p.Rows)
	}
}

// A gap within the tolerance is closed, a wider one is told with its size.
func TestTolerance(t *testing.T) {
	gap := []string{line(40, 0, 40, 119.9), line(40, 120, 13, 160), line(13, 160, 13, 172.5)}
	if p := read(t, "a.dxf", drawn("4", gap...), Options{Tolerance: 0.2e-3}); len(p.Rows) != 4 {
		t.Errorf("%+v", p.Rows)
	}
	_, err := Read("a.dxf", []byte(drawn("4", gap...)), Options{})
	if err == nil || !strings.Contains(err.Error(), "a gap of 0.1 mm, over the tolerance of 0.02 mm") {
		t.Errorf("%v", err)
	}
}

func TestFaults(t *testing.T) {
	for name, c := range map[string]struct {
		file, text string
		o          Options
		want       []string
	}{
		"empty table":   {"a.csv", "", Options{}, []string{"table is empty"}},
		"no heading":    {"a.csv", "0,25\n10,30\n", Options{}, []string{"no heading"}},
		"no unit":       {"a.csv", "z,r\n0,25\n10,30\n", Options{}, []string{"a.csv:2:", "has no unit"}},
		"all at once":   {"a.csv", "z [mm],r [mm]\n0,25\nten,30\n20,x\n30\n", Options{}, []string{"a.csv:3:", "a.csv:4:", "a.csv:5:"}},
		"wrong unit":    {"a.csv", "z [kg],r [mm]\n0,25\n", Options{}, []string{"no unit of length"}},
		"inches for mm": {"a.csv", "z [in],r [in]\n0,25\n288,13\n", Options{}, []string{"7315 mm high", "unit"}},
		"no unit given": {"a.dxf", drawn("", punt()...), Options{}, []string{"does not say its unit"}},
		"binary":        {"a.dxf", "AB\x00\x1a", Options{}, []string{"binary"}},
		"no codes":      {"a.dxf", "hello\nworld\n", Options{}, []string{"a.dxf:1:", "group code"}},
		"broken off":    {"a.dxf", strings.TrimSuffix(drawn("4", punt()...), "0\nEOF\n"), Options{}, []string{"EOF"}},
		"nothing":       {"a.dxf", drawn("4", groups("TEXT", "o", 1, "x")), Options{}, []string{"no line"}},
		"closed":        {"a.dxf", drawn("4", groups("LWPOLYLINE", "o", 70, 1, 10, 1, 20, 0, 10, 40, 20, 0, 10, 40, 20, 100)), Options{}, []string{"closed"}},
		"branch":        {"a.dxf", drawn("4", append(punt(), line(40, 120, 60, 120))...), Options{}, []string{"3 pieces meet at x 40, y 120 mm"}},
		"both sides":    {"a.dxf", drawn("4", line(-30, 100, -30, 0), line(-30, 0, 30, 0), line(30, 0, 30, 100)), Options{}, []string{"both sides"}},
		"two lines":     {"a.dxf", drawn("4", line(40, 0, 40, 100), line(30, 5, 30, 95)), Options{}, []string{"2 separate lines", "layer"}},
		"block":         {"a.dxf", drawn("4", groups("INSERT", "o", 2, "half")), Options{}, []string{"block \"half\""}},
		"bad number":    {"a.dxf", drawn("4", groups("LINE", "o", 10, "x", 20, 0, 11, 1, 21, 1)), Options{}, []string{"no number of a drawing"}},
		"bad spline":    {"a.dxf", drawn("4", groups("SPLINE", "o", 71, 3, 40, 0, 10, 1, 20, 1)), Options{}, []string{"degree 3 with 1 knots"}},
		"bad arc":       {"a.dxf", drawn("4", groups("ARC", "o", 40, 0)), Options{}, []string{"radius of 0"}},
		"top too high":  {"a.dxf", drawn("4", punt()...), Options{Top: 0.2}, []string{"end at 200 mm", "172 mm"}},
		"tolerance":     {"a.dxf", drawn("4", punt()...), Options{Tolerance: 1}, []string{"tolerance of 1000 mm"}},
		"axis":          {"a.dxf", drawn("4", punt()...), Options{Axis: "up"}, []string{"direction of the axis"}},
		"other layer":   {"a.dxf", drawn("4", punt()...), Options{Layer: "section"}, []string{"no line"}},
	} {
		p, err := Read(c.file, []byte(c.text), c.o)
		if err == nil {
			t.Errorf("%s: no fault", name)
			continue
		}
		for _, want := range c.want {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: want %q in\n%v", name, want, err)
			}
		}
		for _, f := range err.(Faults) {
			if f.Expected == "" || f.Message == "" {
				t.Errorf("%s: no remedy: %+v", name, f)
			}
		}
		if len(p.Rows) > 0 {
			t.Errorf("%s: rows in spite of faults", name)
		}
	}
}

// Layers are named so that one can be chosen.
func TestLayers(t *testing.T) {
	text := drawn("4", append(punt(), groups("LINE", "label", 10, 50, 20, 0, 11, 50, 21, 100))...)
	p, err := Read("a.dxf", []byte(text), Options{})
	if err == nil || strings.Join(p.Layers, " ") != "label outline" {
		t.Errorf("%v, %v", p.Layers, err)
	}
	if p := read(t, "a.dxf", text, Options{Layer: "outline"}); len(p.Rows) != 5 {
		t.Errorf("%+v", p.Rows)
	}
}

// The profile goes into a design that can be computed; the base follows.
func TestInto(t *testing.T) {
	p := read(t, "a.dxf", drawn("4", punt()...), Options{})
	const still = "schema: 1\nname: Round\nclass: still-500\nbottle:\n  height: 222 mm   # of the old one\n  base:\n    type: punt\n    push_up: 3 mm\n    height: 12 mm\n    standing_diameter: 40 mm\n  planes: [30 mm, 110 mm]\n  panel_from: 40 mm\n  panel_to: 100 mm\n"
	text, changes, err := p.Into("", still)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := design.Load("", text)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	b := doc.Design.Bottle
	near(t, "push-up", b.Base.PushUp, 10e-3, 1e-9)
	near(t, "standing", b.Base.Standing, 64e-3, 1e-9)
	near(t, "diameter", b.Diameter, 80e-3, 1e-9)
	near(t, "height", b.Height, 0.172+doc.Design.Finish.Height, 1e-9)
	if len(b.Profile) != 5 || len(changes) < 3 {
		t.Errorf("%+v\n%q", b.Profile, changes)
	}
	if _, _, err := p.Into("", "class: x\n"); err == nil {
		t.Error("an unusable design is taken")
	}
}

func FuzzRead(f *testing.F) {
	f.Add("a.dxf", drawn("4", punt()...))
	f.Add("a.dxf", drawn("", groups("SPLINE", "o", 71, 3, 40, 0, 10, 1, 20, 1)))
	f.Add("a.dxf", drawn("4", groups("POLYLINE", "o", 70, 0)+groups("VERTEX", "o", 10, 1, 42, 0.3)))
	f.Add("a.csv", "z [mm];r [mm]\n0,0;25,0\n100;40\n")
	f.Fuzz(func(t *testing.T, name, text string) {
		p, err := Read(name, []byte(text), Options{Unit: "mm"})
		if err != nil {
			return
		}
		if len(p.Rows) < 2 {
			t.Fatalf("%d rows without a fault", len(p.Rows))
		}
		for _, w := range p.Rows {
			if !(w.R >= 0 && w.R <= maxRadius*2) || math.IsNaN(w.Z) || w.Z < 0 {
				t.Fatalf("%+v", w)
			}
			if _, _, err := design.Via(w.Via); err != nil {
				t.Fatal(err)
			}
		}
	})
}
