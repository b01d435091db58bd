package permeation

import (
	"math"
	"testing"

	"costrel/physics/climate"
	"costrel/unit"
)

// TestCalmedDays compares the averaged day with the followed one over a year
// of every lane with a daily cycle: what the averaging of the Arrhenius factors
// costs, and what it gains.
func TestCalmedDays(t *testing.T) {
	if testing.Short() {
		t.Skip("follows every day of two years")
	}
	p, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct {
		lane                     string
		loss, oxygen, water, bar float64 // allowed: points, shares, shares, bar
	}{{"warehouse", 0.02e-2, 0.002, 0.005, 0.005}, {"tropical", 0.1e-2, 0.005, 0.02, 0.005}} {
		lane, err := climate.Named(r.lane)
		if err != nil {
			t.Fatal(err)
		}
		follow := func(l climate.Lane) (*Life, Loss, Point) {
			c, err := l.Course()
			if err != nil {
				t.Fatal(err)
			}
			life, err := p.Run(c, 0, Options{})
			if err != nil {
				t.Fatal(err)
			}
			end, err := life.At(life.end)
			if err != nil {
				t.Fatal(err)
			}
			x, err := life.Loss(life.end, Sealed)
			if err != nil {
				t.Fatal(err)
			}
			return life, x, end
		}
		calm, err := lane.Calm(43e3)
		if err != nil {
			t.Fatal(err)
		}
		whole, x, a := follow(lane)
		flat, y, b := follow(calm)
		if d := y.Total - x.Total; math.Abs(d) > r.loss {
			t.Errorf("%s: loss %.6f averaged, %.6f followed", r.lane, y.Total, x.Total)
		}
		if d := b.Ingress/a.Ingress - 1; math.Abs(d) > r.oxygen {
			t.Errorf("%s: oxygen off by %g", r.lane, d)
		}
		if d := b.WaterLost/a.WaterLost - 1; math.Abs(d) > r.water {
			t.Errorf("%s: water off by %g", r.lane, d)
		}
		if d := float64(flat.MaxPressure - whole.MaxPressure); math.Abs(d) > r.bar*1e5 {
			t.Errorf("%s: highest pressure %.4g and %.4g bar", r.lane, float64(flat.MaxPressure)/1e5, float64(whole.MaxPressure)/1e5)
		}
		// No half hour of the followed days stands higher.
		for at := whole.MaxTime - 3*day; at < whole.MaxTime+3*day; at += day / 48 {
			if q, err := whole.At(math.Max(at, 0)); err != nil || float64(q.Gauge) > float64(whole.MaxPressure)+50 {
				t.Errorf("%s: %.5g bar on day %g, the highest is told as %.5g on day %g, %v", r.lane, float64(q.Gauge)/1e5, at/day, float64(whole.MaxPressure)/1e5, whole.MaxTime/day, err)
				break
			}
		}
		t.Logf("%s, a year: followed %d steps, averaged %d; loss %.3f and %.3f %%, oxygen %+.2f %%, water %+.2f %%, highest pressure %.3f and %.3f bar",
			r.lane, whole.Steps, flat.Steps, 100*x.Total, 100*y.Total, 100*(b.Ingress/a.Ingress-1), 100*(b.WaterLost/a.WaterLost-1), float64(whole.MaxPressure)/1e5, float64(flat.MaxPressure)/1e5)
	}
}

// BenchmarkLanes follows a year of five zones with all gases along each kind of
// lane.
func BenchmarkLanes(b *testing.B) {
	p, err := half.pack(change{})
	if err != nil {
		b.Fatal(err)
	}
	season := climate.Constant("season", unit.Celsius(15), 0.5, climate.Year)
	season.Segments[0].Season = climate.Cycle{Temperature: 9, Peak: climate.Year / 2}
	days, err := climate.Named("warehouse")
	if err != nil {
		b.Fatal(err)
	}
	calm, err := days.Calm(43e3)
	if err != nil {
		b.Fatal(err)
	}
	route := climate.Lane{Name: "steps"}
	at := 0.0
	for _, s := range []struct{ days, celsius float64 }{{14, 15}, {2, 32}, {60, 20}, {1, 38}, {30, 22}, {258.25, 20}} {
		route.Segments = append(route.Segments, climate.Segment{Name: "s", Start: at, Duration: s.days * day, Temperature: unit.Celsius(s.celsius), Humidity: 0.5})
		at += s.days * day
	}
	for _, l := range []struct {
		name string
		lane climate.Lane
	}{{"constant", climate.Constant("c", unit.Celsius(22), 0.5, climate.Year)}, {"season", season}, {"steps", route}, {"days-averaged", calm}, {"days-followed", days}} {
		b.Run(l.name, func(b *testing.B) {
			c, err := l.lane.Course()
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := p.Run(c, 0, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
