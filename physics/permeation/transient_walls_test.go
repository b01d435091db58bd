package permeation

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/climate"
	"costrel/unit"
)

func TestCoating(t *testing.T) {
	// A coating sized for a factor of 10 on oxygen, steady, on both faces alike.
	for _, inner := range []bool{true, false} {
		p, err := half.pack(change{noCap: true})
		if err != nil {
			t.Fatal(err)
		}
		p.Zones = p.Zones[:1]
		p.Contents.CO2, p.Contents.Oxygen = 0, 0
		p.Uptake.Rate = 100 / day // keeps the inside empty
		run := func(p Pack, celsius float64) float64 {
			l, err := p.Run(steps(t, []float64{celsius}, []float64{200}), 0, Options{})
			if err != nil {
				t.Fatal(err)
			}
			a, err := l.At(150 * day)
			if err != nil {
				t.Fatal(err)
			}
			b, err := l.At(200 * day)
			if err != nil {
				t.Fatal(err)
			}
			return b.Ingress - a.Ingress
		}
		cool, warm := run(p, 22), run(p, 38)
		pi, err := CoatingFor(p.Zones[0].Material.Oxygen.Permeability.At(unit.Celsius(23)), p.Zones[0].Thickness, 10)
		if err != nil {
			t.Fatal(err)
		}
		z := p.Zones[0]
		if inner {
			z.Inner = Coating{Oxygen: pi}
		} else {
			z.Outer = Coating{Oxygen: pi}
		}
		p.Zones = []WallZone{z}
		for celsius, bare := range map[float64]float64{22: cool, 38: warm} {
			if r := bare / run(p, celsius); math.Abs(r-10) > 0.05 {
				t.Errorf("inner %v, %g °C: improvement %g, want 10", inner, celsius, r)
			}
		}
	}
}

func TestScavenger(t *testing.T) {
	p, err := half.pack(change{noCap: true})
	if err != nil {
		t.Fatal(err)
	}
	p.Contents.Oxygen = 0
	p.Uptake.Rate = 10 / day
	volume := 0.0
	for i := range p.Zones {
		volume += p.Zones[i].Area * p.Zones[i].Thickness
	}
	c := steps(t, []float64{22}, []float64{400})
	bare, err := p.Run(c, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	// About 60 days of the plain ingress.
	p.Zones = append([]WallZone(nil), p.Zones...)
	for i := range p.Zones {
		p.Zones[i].Scavenger = Scavenger{Capacity: 5e-6 / 31.9988e-3 / volume}
	}
	l, err := p.Run(c, 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	at := func(l *Life, d float64) float64 {
		q, err := l.At(d * day)
		if err != nil {
			t.Fatal(err)
		}
		return q.Ingress
	}
	if early := at(l, 20) / at(bare, 20); early > 0.05 {
		t.Errorf("fresh scavenger passes %g of the plain ingress", early)
	}
	// Used up: the plain slope.
	if late := (at(l, 400) - at(l, 350)) / (at(bare, 400) - at(bare, 350)); math.Abs(late-1) > 0.02 {
		t.Errorf("used up, the slope is %g of the plain one", late)
	}
}

func TestRefusals(t *testing.T) {
	good, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	room := steps(t, []float64{22}, []float64{10})
	for _, c := range []struct {
		want  string
		spoil func(p *Pack) (climate.Course, float64, Options)
	}{
		{"thickness 1000 mm", func(p *Pack) (climate.Course, float64, Options) { p.Zones[0].Thickness = 1; return room, 0, Options{} }},
		{"CO2 inside NaN", func(p *Pack) (climate.Course, float64, Options) {
			p.Contents.CO2 = math.NaN()
			return room, 0, Options{}
		}},
		{"asked for 20 d", func(p *Pack) (climate.Course, float64, Options) { return room, 20 * day, Options{} }},
		{"75 °C", func(p *Pack) (climate.Course, float64, Options) {
			return steps(t, []float64{22, 75}, []float64{1, 1}), 0, Options{}
		}},
		{"no method", func(p *Pack) (climate.Course, float64, Options) { return room, 0, Options{Method: "euler"} }},
		{"cells", func(p *Pack) (climate.Course, float64, Options) { return room, 0, Options{Cells: 999} }},
		{"tolerance", func(p *Pack) (climate.Course, float64, Options) { return room, 0, Options{Tolerance: 1} }},
		{"stoichiometry", func(p *Pack) (climate.Course, float64, Options) { p.Uptake.Acid = 1; return room, 0, Options{} }},
		{"panel point 1", func(p *Pack) (climate.Course, float64, Options) {
			p.Growth.Panel = []PanelPoint{{-1, 0}}
			return room, 0, Options{}
		}},
		{"fills the bottle", func(p *Pack) (climate.Course, float64, Options) {
			p.Volume = 0.500e-3
			p.Growth.Elastic = 0
			return room, 0, Options{}
		}},
		{"no diffusivity", func(p *Pack) (climate.Course, float64, Options) {
			p.Zones[0].Material = Material{}
			return room, 0, Options{}
		}},
		{"conductance of CO2", func(p *Pack) (climate.Course, float64, Options) { p.Cap.CO2 = -1; return room, 0, Options{} }},
	} {
		p := good
		p.Zones = append([]WallZone(nil), good.Zones...)
		lane, until, o := c.spoil(&p)
		if _, err := p.Run(lane, until, o); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), c.want) {
			t.Errorf("want an error with %q, have %v", c.want, err)
		}
	}
	l := live(t, half, change{}, 22, 0.5, Options{})
	if _, err := l.Loss(0, FirstDay); err == nil || !strings.Contains(err.Error(), "24 h") {
		t.Errorf("24 h of half a day: %v", err)
	}
	if _, err := l.At(2 * day); err == nil {
		t.Error("a time past the end is answered")
	}
	if _, err := l.Loss(0, "tomorrow"); err == nil || !strings.Contains(err.Error(), "tomorrow") {
		t.Errorf("unknown reference: %v", err)
	}
}

// TestCycle: a daily cycle loses like its mean kinetic temperature, about.
func TestCycle(t *testing.T) {
	p, err := half.pack(change{rigid: true})
	if err != nil {
		t.Fatal(err)
	}
	lane := climate.Lane{Segments: []climate.Segment{{Duration: 60 * day, Temperature: unit.Celsius(22), Humidity: 0.5, Daily: climate.Cycle{Temperature: 8}}}}
	c, err := lane.Course()
	if err != nil {
		t.Fatal(err)
	}
	l, err := p.Run(c, 0, Options{Cells: 8})
	if err != nil {
		t.Fatal(err)
	}
	cycled := loss(t, l, 60).Total
	k, err := c.MeanKinetic(44e3)
	if err != nil {
		t.Fatal(err)
	}
	flat, err := p.Run(steps(t, []float64{k.Celsius()}, []float64{60}), 0, Options{Cells: 8})
	if err != nil {
		t.Fatal(err)
	}
	if x := loss(t, flat, 60).Total; math.Abs(cycled/x-1) > 0.02 {
		t.Errorf("cycle loses %g, its mean kinetic temperature %g", cycled, x)
	}
	mean, err := p.Run(steps(t, []float64{22}, []float64{60}), 0, Options{Cells: 8})
	if err != nil {
		t.Fatal(err)
	}
	if x := loss(t, mean, 60).Total; x >= cycled {
		t.Errorf("the mean temperature loses %g, the cycle %g: want less", x, cycled)
	}
	fine, err := p.Run(c, 0, Options{Cells: 8, Tolerance: 1e-8})
	if err != nil {
		t.Fatal(err)
	}
	if x := loss(t, fine, 60).Total; math.Abs(x-cycled) > 5e-5 {
		t.Errorf("cycle: %g, with fine steps %g", cycled, x)
	}
	t.Logf("%d steps for 60 d of a daily cycle", l.Steps)
}
