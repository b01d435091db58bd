package bottle

import (
	"math"
	"testing"
)

// TestGrowthRate puts the strains of a thin closed cylinder together again:
// hoop (pR/Et)(1-ν/2) twice and axial (pR/Et)(1/2-ν).
func TestGrowthRate(t *testing.T) {
	R, w, E, nu, p := 0.0325, 0.3e-3, 4.2e9, 0.38, 4e5
	hoop, axial := p*R/(E*w)*(1-nu/2), p*R/(E*w)*(0.5-nu)
	g, err := GrowthRate(R, w, E, nu, 1)
	if err != nil || math.Abs(g*p-(2*hoop+axial)) > 1e-12 {
		t.Errorf("growth %g, want %g (%v)", g*p, 2*hoop+axial, err)
	}
	for _, bad := range [][5]float64{{0, w, E, nu, 1}, {R, 0, E, nu, 1}, {R, w, math.NaN(), nu, 1}, {R, w, E, 0.6, 1}, {R, w, E, nu, -1}} {
		if _, err := GrowthRate(bad[0], bad[1], bad[2], bad[3], bad[4]); err == nil {
			t.Errorf("%v is not refused", bad)
		}
	}
}
