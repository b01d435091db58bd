package permeation

import (
	"testing"

	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"
)

const week = 7 * day

func TestTable(t *testing.T) {
	for _, b := range []struct {
		name string
		example
		rows [][9]float64
	}{
		{"0.5 L", half, [][9]float64{
			{0, 4.281, 4.000, 0, 1.32, 0, 0, 0, 0},
			{0.14, 4.228, 3.959, 1.03, 1.54, 0, 16, 0.30, .02},
			{1, 4.157, 3.898, 2.56, 1.67, 7, 36, 1.06, .12},
			{4, 4.023, 3.768, 5.81, 1.73, 59, 42, 3.4, .48},
			{12, 3.710, 3.463, 13.43, 1.68, 196, 43, 8.6, 1.43},
			{26, 3.212, 2.990, 25.2, 1.51, 414, 39, 14.8, 3.10},
			{52, 2.417, 2.263, 43.4, 1.17, 753, 33, 21, 6.2},
		}},
		{"2 L", two, [][9]float64{
			{0, 4.225, 4.000, 0, 2.76, 0, 0, 0, 0}, {1, 4.115, 3.915, 2.13, 3.49, 36, 73, 0.8, .40}, {12, 3.785, 3.591, 10.22, 3.62, 679, 77, 7.3, 4.8}, {26, 3.418, 3.232, 19.2, 3.37, 1435, 73, 13.2, 10.4}, {52, 2.805, 2.647, 33.8, 2.84, 2666, 64, 20, 20.8},
		}},
	} {
		p, err := b.pack(change{})
		if err != nil {
			t.Fatal(err)
		}
		c, err := climate.Constant("room", unit.Celsius(22), 0.5, 53*week).Course()
		if err != nil {
			t.Fatal(err)
		}
		l, err := p.Run(c, 0, Options{})
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %d steps, %d refused, %d iterations, balance %.2g", b.name, l.Steps, l.Refused, l.iterations, l.Balance())
		for _, r := range b.rows {
			q, err := l.At(r[0] * week)
			if err != nil {
				t.Fatal(err)
			}
			x, err := l.Loss(r[0]*week, Sealed)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("wk %5.2f P %.3f (%.3f) vol %.3f (%.3f) loss %.2f (%.2f) dV %.2f (%.2f) perm %.0f (%.0f) wall %.0f (%.0f) cap %.1f  O2 %.2f (%.2f) H2O %.2f (%.2f) split w%.2f s%.2f c%.2f g%.2f h%.2f w%.2f sum %.2f", r[0], float64(q.Gauge)/1e5, r[1], drink.Volumes(q.Carbonation), r[2], 100*x.Total, r[3], 100*q.Growth, r[4], q.Passed/cc, r[5], q.InWall/cc, r[6], q.ThroughCap/cc, q.Ingress*1e6/(b.fill*1e3), r[7], q.WaterLost*1e3, r[8],
				100*x.Wall, 100*x.Sorption, 100*x.Closure, 100*x.Growth, 100*x.Headspace, 100*x.Water, 100*(x.Wall+x.Sorption+x.Closure+x.Growth+x.Headspace+x.Water))
		}
	}
}
