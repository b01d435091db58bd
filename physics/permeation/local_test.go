package permeation

import (
	"math"
	"testing"

	"costrel/physics/drink"
	"costrel/unit"
)

func TestLocal(t *testing.T) {
	at := unit.Celsius(25)
	perm := func(phi, stretch float64) (co2, o2, w float64) {
		m, err := Local(phi, stretch)
		if err != nil {
			t.Fatal(err)
		}
		c, err := m.CO2.Permeability(at, 5e5)
		if err != nil {
			t.Fatal(err)
		}
		return c, m.Oxygen.Permeability.At(at), m.Water.At(at)
	}
	for _, r := range []struct {
		card         string
		phi, stretch float64
	}{{"wall", WallCrystallinity, 12}, {"amorphous", 0, 1}} {
		m, err := Named(r.card)
		if err != nil {
			t.Fatal(err)
		}
		c, _ := m.CO2.Permeability(at, 5e5)
		lc, lo, lw := perm(r.phi, r.stretch)
		for _, x := range []struct{ got, want float64 }{{lc, c}, {lo, m.Oxygen.Permeability.At(at)}, {lw, m.Water.At(at)}} {
			if math.Abs(x.got/x.want-1) > 0.01 {
				t.Errorf("%s: %g, want %g", r.card, x.got, x.want)
			}
		}
	}
	// Crystals by heat and orientation both help; both together most.
	a, _, _ := perm(0, 1)
	b, _, _ := perm(0.3, 1)
	c, _, _ := perm(0.3, 10)
	if !(c < b && b < a) {
		t.Errorf("amorphous %g, crystallised %g, stretched and crystallised %g", a, b, c)
	}
	for _, bad := range [][2]float64{{-0.1, 2}, {0.7, 2}, {0.2, 0}, {math.NaN(), 2}} {
		if _, err := Local(bad[0], bad[1]); err == nil {
			t.Errorf("%v is answered", bad)
		}
	}
}

func TestBlended(t *testing.T) {
	m, err := Named("wall")
	if err != nil {
		t.Fatal(err)
	}
	b, err := m.Blended(0.05, 27)
	if err != nil {
		t.Fatal(err)
	}
	n, _ := Nielsen(0.05, 27)
	at := unit.Celsius(22)
	p0, _ := m.CO2.Permeability(at, 3e5)
	p1, _ := b.CO2.Permeability(at, 3e5)
	if math.Abs(p1/p0/n-1) > 1e-12 || math.Abs(b.Oxygen.Permeability.At(at)/m.Oxygen.Permeability.At(at)/n-1) > 1e-12 {
		t.Errorf("CO2 %g, O2 %g, Nielsen %g", p1/p0, b.Oxygen.Permeability.At(at)/m.Oxygen.Permeability.At(at), n)
	}
	if _, err := m.Blended(0.9, 4); err == nil {
		t.Error("90 % of platelets are answered")
	}
}

// TestMaterials answers "why not another material" by runs of one bottle.
func TestMaterials(t *testing.T) {
	base, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]float64{}
	for _, name := range Materials() {
		m, err := Named(name)
		if err != nil {
			t.Fatal(err)
		}
		p := base
		p.Zones = append([]WallZone(nil), base.Zones...)
		for i := range p.Zones {
			p.Zones[i].Material = m
		}
		l, err := p.Run(steps(t, []float64{22}, []float64{84}), 0, Options{})
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		q, err := l.At(84 * day)
		if err != nil {
			t.Fatal(err)
		}
		got[name] = loss(t, l, 84).Total
		t.Logf("%-10s loss %5.1f %%, %.2f vol, oxygen %5.1f mg/L, water %.2f g in 12 weeks", name, 100*got[name], drink.Volumes(q.Carbonation), q.Ingress/half.fill*1e3, q.WaterLost*1e3)
	}
	for _, pair := range [][2]string{{"glass", "pef"}, {"pef", "wall"}, {"wall", "amorphous"}, {"amorphous", "hdpe"}, {"hdpe", "pp"}} {
		if !(got[pair[0]] < got[pair[1]]) {
			t.Errorf("%s loses %g, %s %g", pair[0], got[pair[0]], pair[1], got[pair[1]])
		}
	}
	if math.Abs(got["glass"]-got["metal"]) > 1e-12 {
		t.Errorf("glass %g, metal %g", got["glass"], got["metal"])
	}
}

func TestScavengerCapacity(t *testing.T) {
	// 2 % of 23 g: 35 mg of oxygen.
	c, err := ScavengerCapacity(0.02, 0.076, 1360)
	if err != nil || math.Abs(c*31.9988e-3*23e-3/1360*1e6-35) > 0.1 {
		t.Errorf("%g, %v", c, err)
	}
	if _, err := ScavengerCapacity(2, 0.076, 1360); err == nil {
		t.Error("200 % is answered")
	}
}
