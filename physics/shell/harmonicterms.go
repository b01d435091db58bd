package shell

import "math"

// cone is an element of a prestress as it stands: mean radius, length, unit
// tangent, turn of its meridian and the share of its shear that is bending.
type cone struct {
	r, l, tr, tz, turn, share float64
	slope                     float64 // r2 - r1
}

func (p *prestress) coneOf(i int) cone {
	dr, dz := p.r[i+1]-p.r[i], p.z[i+1]-p.z[i]
	l := math.Hypot(dr, dz)
	t := &p.tan[i]
	return cone{0.5*(p.r[i]+p.r[i+1]) + t.turn*dz/12, l, dr / l, dz / l, t.turn, t.share, dr}
}

// elastic adds the stiffness of n waves times w.
//
// Eight strains have their mean over the element, w as the cubic through the
// nodes and their turns; the last five rows are what the strains round and of
// shear differ by from end to end, whose square over 12 is the rest of the
// integral (over 4 for κθ, whose βθ is exact at the nodes).
func (c *cone) elastic(kb *[100]float64, s *sectionStiffness, n, w float64) {
	il, ir := 1/c.l, 1/c.r
	tr, tz, nr, nz := c.tr, c.tz, c.tz, -c.tr
	var B [13][10]float64
	for k := range 2 {
		d, h := -il, 0.5 // derivative; value at the middle
		if k == 1 {
			d = il
		}
		x := 5 * k // ur, uz, β, v, βθ
		sag := c.l * c.l * d / 12
		B[0][x], B[0][x+1], B[0][x+2] = d*tr, d*tz, c.turn*c.l*d/12
		B[1][x], B[1][x+2], B[1][x+3] = h*ir, sag*nr*ir, h*n*ir
		B[2][x], B[2][x+1], B[2][x+3] = -h*n*tr*ir, -h*n*tz*ir, d-h*tr*ir
		B[3][x+2] = d
		g := [3]float64{d * nr, d * nz, h} // γs; the mean of β is that of the nodes less its share
		f := h * nr * ir * ir
		for a, v := range g {
			B[4][x+a] = -tr * ir * c.share * v
			B[5][x+a] = n * ir * c.share * v
			B[6][x+a] = v
			B[12][x+a] = 12 * c.share * il * v
		}
		B[4][x+2] += h * tr * ir
		B[4][x+4] = h * n * ir
		B[5][x] += f * n * tr
		B[5][x+1] += f * n * tz
		B[5][x+2] -= h * n * ir
		B[5][x+3], B[5][x+4] = f*tr, d-h*tr*ir
		B[7][x], B[7][x+1], B[7][x+3], B[7][x+4] = -h*n*nr*ir, -h*n*nz*ir, -h*nr*ir, h
		v := c.end(k)
		o := nr * ir * v
		B[8][x], B[8][x+3] = v, n*v
		B[9][x], B[9][x+1], B[9][x+3] = -n*tr*v, -n*tz*v, -tr*v
		B[10][x+2], B[10][x+4] = tr*v, n*v
		B[11][x], B[11][x+1], B[11][x+2], B[11][x+3], B[11][x+4] = o*n*tr, o*n*tz, -n*v, o*tr, -tr*v
	}
	gs, part := 5.0/6*s.g, w/12
	round := 0.0 // without force along, which is even in the element
	if s.a.s > 0 {
		round = part * (s.a.h - s.a.c*s.a.c/s.a.s)
	}
	for y := range 10 {
		b0, b1, b3, b4 := B[0][y], B[1][y], B[3][y], B[4][y]
		c0 := w * (s.a.s*b0 + s.a.c*b1 + s.b.s*b3 + s.b.c*b4)
		c1 := w * (s.a.c*b0 + s.a.h*b1 + s.b.c*b3 + s.b.h*b4)
		c3 := w * (s.b.s*b0 + s.b.c*b1 + s.d.s*b3 + s.d.c*b4)
		c4 := w * (s.b.c*b0 + s.b.h*b1 + s.d.c*b3 + s.d.h*b4)
		c2, c5 := w*s.g*B[2][y], w*s.gd*B[5][y]
		c6, c7 := w*s.gs*B[6][y], w*gs*B[7][y]
		c8, c9 := round*B[8][y], part*s.g*B[9][y]
		c10, c11, c12 := part*(3*s.d.h*B[10][y]+s.d.c*B[12][y]), part*s.gd*B[11][y], part*s.d.c*B[10][y]
		for x := y; x < 10; x++ {
			kb[10*x+y] += B[0][x]*c0 + B[1][x]*c1 + B[2][x]*c2 + B[3][x]*c3 + B[4][x]*c4 + B[5][x]*c5 + B[6][x]*c6 + B[7][x]*c7 +
				B[8][x]*c8 + B[9][x]*c9 + B[10][x]*c10 + B[11][x]*c11 + B[12][x]*c12
		}
	}
}

// end returns what a displacement of one node adds to the difference of
// displacement over radius from end to end.
func (c *cone) end(k int) float64 {
	v := 1 / c.r
	if k == 0 {
		v = -v
	}
	return v - 0.5*c.slope/(c.r*c.r)
}

// initial adds the terms of the forces along and round, times the area, in n
// waves: on the full gradients of the cubic through the nodes.
func (c *cone) initial(kb *[100]float64, along, round, n float64) {
	il, ir := 1/c.l, 1/c.r
	nr, nz := c.tz, -c.tr
	// Along: the chord, the cubic over it by γs and by the difference of the turns.
	g := [10]float64{-il * nr, -il * nz, 0.5, 0, 0, il * nr, il * nz, 0.5}
	cubic := along * c.share * c.share / 5
	for x := range 10 {
		for y := range x + 1 {
			kb[10*x+y] += cubic * g[x] * g[y]
		}
	}
	m := round * ir * ir / 4
	for a := range 2 {
		sa := c.l / 6 * float64(2*a-1) // w of the middle by the turns, twice
		for b := range 2 {
			sb := c.l / 6 * float64(2*b-1)
			d, t := along*il*il, along/12
			if a != b {
				d, t = -d, -t
			}
			x, y := 5*a, 5*b
			e := round / 12 * c.end(a) * c.end(b)
			rr, rv, zz := (m+e)*(n*n+1), (m+e)*2*n, (m+e)*n*n
			add(kb, x, y, d+rr)
			add(kb, x+1, y+1, d+zz)
			add(kb, x+3, y+3, d+rr)
			add(kb, x, y+3, rv)
			add(kb, x+3, y, rv)
			rr, rv, zz = m*(n*n+1)*nr, m*2*n*nr, m*n*n*nz
			add(kb, x, y+2, rr*sb)
			add(kb, x+2, y, rr*sa)
			add(kb, x+1, y+2, zz*sb)
			add(kb, x+2, y+1, zz*sa)
			add(kb, x+2, y+3, rv*sa)
			add(kb, x+3, y+2, rv*sb)
			add(kb, x+2, y+2, t+(rr*nr+zz*nz)*sa*sb)
		}
	}
}

// arc adds f times the second variation of the volume between the chord of an
// element and its arc, as [Model.volume] has it, in any number of waves.
func (p *prestress) arc(kb *[100]float64, i int, f float64) {
	f /= 12
	dr, dz, r, q := p.r[i+1]-p.r[i], p.z[i+1]-p.z[i], 0.5*(p.r[i]+p.r[i+1]), f*p.tan[i].turn
	half := 0.5 * (dr*dr + dz*dz)
	for k, v := range [4]float64{half - 2*r*dr, -2 * r * dz, half + 2*r*dr, 2 * r * dz} {
		x := 5*(k/2) + k%2
		add(kb, 7, x, f*v)
		add(kb, max(x, 2), min(x, 2), -f*v)
	}
	for _, c := range [...]struct {
		x, y int
		v    float64
	}{
		{0, 0, 2 * (r - dr)},
		{5, 0, -2 * r},
		{5, 5, 2 * (r + dr)},
		{1, 0, -dz},
		{6, 0, dz},
		{5, 1, -dz},
		{6, 5, dz},
		{1, 1, 2 * r},
		{6, 1, -2 * r},
		{6, 6, 2 * r},
	} {
		add(kb, c.x, c.y, q*c.v)
	}
}

func add(kb *[100]float64, x, y int, v float64) {
	if x >= y {
		kb[10*x+y] += v
	}
}
