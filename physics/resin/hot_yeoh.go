package resin

import (
	"fmt"
	"math"
)

// Yeoh is the rubber W = sum C_k (I1 - 3)^k, k = 1..3, whose coefficients are
// straight lines between temperatures. It knows no rate, and what is stretched
// goes back: a preview only. One row with C2 = C3 = 0 is the neo-Hookean
// solid of shear modulus 2 C1.
type Yeoh struct {
	ID, Text string
	Rows     []YeohRow // by rising temperature; at least one
}

// YeohRow holds the coefficients [Pa] at a temperature [K].
type YeohRow struct {
	T float64
	C [3]float64
}

// DefaultYeoh returns the fit to the curves of the default glass-rubber law at
// 16 1/s and equal-biaxial stretch 1.2 to 3.3, 90 to 110 °C: root mean square
// 8 to 12 %. Own fit.
func DefaultYeoh() *Yeoh {
	row := func(c, c1, c2, c3 float64) YeohRow {
		return YeohRow{T: 273.15 + c, C: [3]float64{c1 * 1e6, c2 * 1e6, c3 * 1e6}}
	}
	return &Yeoh{ID: "yeoh", Text: "rubber preview after Yeoh", Rows: []YeohRow{
		row(90, 2.560, -0.1518, 0.00470),
		row(95, 1.964, -0.1138, 0.00374),
		row(100, 1.487, -0.0812, 0.00281),
		row(105, 1.130, -0.0567, 0.00201),
		row(110, 0.871, -0.0407, 0.00139),
	}}
}

// NeoHooke returns the neo-Hookean solid of shear modulus mu [Pa], for checks
// against closed solutions.
func NeoHooke(mu float64) *Yeoh {
	return &Yeoh{ID: "neo-hooke", Text: "neo-Hookean solid", Rows: []YeohRow{{T: 373.15, C: [3]float64{mu / 2, 0, 0}}}}
}

// Name implements [HotLaw].
func (l *Yeoh) Name() string { return l.ID }

// Title implements [HotLaw].
func (l *Yeoh) Title() string { return l.Text }

// Source implements [HotLaw].
func (*Yeoh) Source() string { return "Yeoh1993" }

// At returns the coefficients at T [K]; outside the rows the nearest row.
func (l *Yeoh) At(T float64) [3]float64 {
	r := l.Rows
	if T <= r[0].T || len(r) == 1 {
		return r[0].C
	}
	for i := 1; i < len(r); i++ {
		if T <= r[i].T {
			w := (T - r[i-1].T) / (r[i].T - r[i-1].T)
			var c [3]float64
			for k := range c {
				c[k] = r[i-1].C[k] + w*(r[i].C[k]-r[i-1].C[k])
			}
			return c
		}
	}
	return r[len(r)-1].C
}

// Prepare implements [HotLaw].
func (l *Yeoh) Prepare(step *HotStep, _ *HotState, T, dt, _, _ float64) {
	step.Dt, step.T, step.Clamp = dt, T, 0
	if n := len(l.Rows); n > 1 {
		if T < l.Rows[0].T {
			step.Clamp = ClampCold
		} else if T > l.Rows[n-1].T {
			step.Clamp = ClampHot
		}
	}
	c := l.At(T)
	step.c[0], step.c[1], step.c[2] = c[0], c[1], c[2]
}

// Update implements [HotLaw]: sigma_i - sigma_3 = 2 W' (lambda_i² - lambda_3²).
func (l *Yeoh) Update(step *HotStep, from *HotState, d1, d2 float64, to *HotState, out *HotResponse) {
	e1, e2 := from.Strain[0]+d1, from.Strain[1]+d2
	to.Strain = [2]float64{e1, e2}
	to.Net, to.Bond, to.LogTau = to.Strain, [2]float64{}, from.LogTau
	to.Path = from.Path + equivalent(d1, d2)
	u1, u2 := math.Exp(2*e1), math.Exp(2*e2)
	u3 := 1 / (u1 * u2)
	to.NetMax = max(from.NetMax, math.Sqrt(max(u1, u2, u3)))
	x := u1 + u2 + u3 - 3
	c := &step.c
	w := c[0] + x*(2*c[1]+3*c[2]*x)
	ww := 2*c[1] + 6*c[2]*x
	a, b := u1-u3, u2-u3
	out.Stress[0], out.Stress[1] = 2*w*a, 2*w*b
	x1, x2 := 2*a, 2*b
	out.Tangent[0][0] = 2*ww*a*x1 + 2*w*(2*u1+2*u3)
	out.Tangent[0][1] = 2*ww*a*x2 + 2*w*2*u3
	out.Tangent[1][0] = 2*ww*b*x1 + 2*w*2*u3
	out.Tangent[1][1] = 2*ww*b*x2 + 2*w*(2*u2+2*u3)
	out.Locked = 1
}

// Stored implements [HotLaw].
func (l *Yeoh) Stored(s *HotState, T float64) float64 {
	x, c := invariant(s.Strain[0], s.Strain[1]), l.At(T)
	return x * (c[0] + x*(c[1]+x*c[2]))
}

// NetInvariant implements [HotLaw]; the whole strain stands for the network.
func (l *Yeoh) NetInvariant(s *HotState) float64 { return invariant(s.Strain[0], s.Strain[1]) }

// Range implements [HotLaw].
func (l *Yeoh) Range(T, _ float64) []string {
	n := len(l.Rows)
	if n == 1 || T >= l.Rows[0].T && T <= l.Rows[n-1].T {
		return nil
	}
	return []string{fmt.Sprintf("hot law %s: temperature ‹%.1f °C› outside the fitted ‹%.0f..%.0f °C›", l.ID, T-273.15, l.Rows[0].T-273.15, l.Rows[n-1].T-273.15)}
}
