package design

import "math"

// Outline returns an outer profile from the main dimensions: a generic base,
// a straight body with label panel, and a shoulder that runs into the neck.
// z is from the standing plane, the last point lies under the support ledge.
// Over a hemisphere the profile begins where the cap ends, at the base height
// or, where that is more, at the radius of the body: the cap closes it below.
//
// neck is the outer radius under the ledge, ledge its height; all in m. The
// curves are drawing aids of our own, not the shape of any product.
func Outline(b Bottle, ledge, neck float64) []ProfileRow {
	R, rp := b.Diameter/2, b.PanelDiameter/2
	rs := b.Base.Standing / 2
	var rows []ProfileRow
	add := func(z, r float64, via string) {
		if n := len(rows); n > 0 && z-rows[n-1].Z < 1e-6 {
			return
		}
		rows = append(rows, ProfileRow{Z: z, R: r, Via: via})
	}
	// Base: a quarter of a superellipse from the standing ring to the body.
	hb := math.Max(b.Base.Height, 1e-3)
	const n = 8
	dome := b.Base.Type == "hemisphere"
	if dome {
		hb = math.Min(hb, R)
		add(hb, R, "line")
	}
	for i := 0; i <= n && !dome; i++ {
		x := 1 - math.Cos(math.Pi/2*float64(i)/n) // denser near the ring
		z := hb * x
		r := rs + (R-rs)*math.Pow(1-math.Pow(1-x, 2.4), 1/2.4)
		via := "curve"
		if i == 0 {
			via = "line"
		}
		add(z, r, via)
	}
	// Body with the panel let in.
	step := math.Max(2*math.Abs(R-rp), 1e-3)
	from, to := math.Max(b.PanelFrom, hb+step), b.PanelTo
	if R-rp > 1e-6 {
		add(from-step, R, "line")
		add(from, rp, "line")
		add(to, rp, "line")
		add(to+step, R, "line")
	} else {
		add(to, R, "line")
	}
	// Shoulder: a raised cosine, steepest below the neck.
	z0 := rows[len(rows)-1].Z
	const m = 12
	for i := 1; i <= m; i++ {
		x := float64(i) / m
		f := 0.5 * (1 + math.Cos(math.Pi*math.Pow(x, 1.35)))
		via := "curve"
		if i == 1 {
			via = "line"
		}
		add(z0+(ledge-z0)*x, neck+(R-neck)*f, via)
	}
	return rows
}
