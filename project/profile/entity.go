package profile

import (
	"math"
	"slices"
)

// polyline is a line with bulges, old or new.
type polyline struct {
	as     piece
	points []pt
	bulges []float64
	closed bool
	flip   bool // drawn seen from behind
}

// maxPieces is the most pieces of one drawing.
const maxPieces = 50000

// entity adds the pieces of one entity.
func (d *drawing) entity(e entity) {
	if e.kind == "VERTEX" || e.kind == "SEQEND" {
		d.vertex(e)
		return
	}
	if d.poly != nil {
		d.end()
	}
	layer := d.text(e, 8)
	if !slices.Contains([]string{"LINE", "ARC", "LWPOLYLINE", "POLYLINE", "SPLINE"}, e.kind) {
		if e.kind == "INSERT" {
			d.fault(e.line, d.text(e, 2), "explode the block in the drawing", "block %q is not taken apart", clip(d.text(e, 2)))
			return
		}
		d.skipped[e.kind]++
		return
	}
	if d.number(e, 67, 0) == 1 {
		d.skipped["on paper"]++ // a plot layout
		return
	}
	if !slices.Contains(d.out.Layers, layer) {
		d.out.Layers = append(d.out.Layers, layer)
	}
	if d.o.Layer != "" && layer != d.o.Layer {
		d.skipped["on other layers"]++
		return
	}
	if len(d.pieces) > maxPieces {
		d.skipped["over the most that is read"]++
		return
	}
	as := piece{line: e.line, what: e.kind, layer: layer}
	flip, ok := d.seen(e)
	if !ok {
		return
	}
	var out []piece
	switch e.kind {
	case "LINE":
		as.a, as.b = d.point(e, 10), d.point(e, 11)
		if math.Abs(d.number(e, 30, 0)-d.number(e, 31, 0))*d.scale > d.o.Tolerance {
			d.fault(e.line, e.kind, "flatten the drawing", "the line leaves the plane of the drawing")
			return
		}
		out, flip = []piece{as}, false // a line is written as it lies in space
	case "ARC":
		out = d.arc(e, as)
	case "LWPOLYLINE":
		p := d.light(e, as)
		p.flip = flip
		d.poly = p
		d.end()
		return
	case "POLYLINE":
		if flags := int(d.number(e, 70, 0)); flags&(16|64) != 0 {
			d.fault(e.line, e.kind, "draw the outline as a flat polyline", "this polyline is a mesh")
			return
		} else {
			d.poly = &polyline{as: as, closed: flags&1 != 0, flip: flip}
		}
		return
	case "SPLINE":
		out, flip = d.spline(e, as), false
	}
	d.add(out, flip)
}

// seen tells whether the entity is drawn seen from behind.
func (d *drawing) seen(e entity) (flip, ok bool) {
	x, y, z := d.number(e, 210, 0), d.number(e, 220, 0), d.number(e, 230, 1)
	if e.kind != "LINE" && e.kind != "SPLINE" && (math.Abs(x) > 1e-6 || math.Abs(y) > 1e-6) {
		d.fault(e.line, e.kind, "flatten the drawing", "%s does not lie in the plane of the drawing", e.kind)
		return false, false
	}
	return z < 0, true
}

func (d *drawing) add(out []piece, flip bool) {
	for _, p := range out {
		if flip {
			p = p.mirrored(func(q pt) pt { return pt{-q.x, q.y} })
		}
		d.pieces = append(d.pieces, p)
	}
}

func (d *drawing) arc(e entity, as piece) []piece {
	radius := d.number(e, 40, 0) * d.scale
	if !(radius > 0) {
		d.fault(e.line, e.kind, "draw it again", "the arc has a radius of %.4g", radius/d.scale)
		return nil
	}
	from, to := d.number(e, 50, 0)*math.Pi/180, d.number(e, 51, 360)*math.Pi/180
	sweep := math.Mod(to-from, 2*math.Pi)
	if sweep <= 1e-12 {
		sweep += 2 * math.Pi
	}
	return arcs(d.point(e, 10), radius, from, sweep, as)
}

// light reads an LWPOLYLINE: its vertices are groups of one entity.
func (d *drawing) light(e entity, as piece) *polyline {
	p := &polyline{as: as, closed: int(d.number(e, 70, 0))&1 != 0}
	for _, g := range e.pairs {
		switch g.code {
		case 10:
			p.points, p.bulges = append(p.points, pt{x: d.value(e, g) * d.scale}), append(p.bulges, 0)
		case 20:
			if n := len(p.points); n > 0 {
				p.points[n-1].y = d.value(e, g) * d.scale
			}
		case 42:
			if n := len(p.points); n > 0 {
				p.bulges[n-1] = d.value(e, g)
			}
		}
	}
	return p
}

// vertex reads a VERTEX of a POLYLINE, or its end.
func (d *drawing) vertex(e entity) {
	switch {
	case d.poly == nil:
	case e.kind == "SEQEND":
		d.end()
	case int(d.number(e, 70, 0))&16 == 0: // not of the frame of a curve
		d.poly.points, d.poly.bulges = append(d.poly.points, d.point(e, 10)), append(d.poly.bulges, d.number(e, 42, 0))
	}
}

// end adds the pieces of the polyline.
func (d *drawing) end() {
	p := d.poly
	d.poly = nil
	n := len(p.points)
	last := n - 1
	if p.closed {
		last = n
	}
	var out []piece
	for i := 0; i < last; i++ {
		if math.Abs(p.bulges[i]) > 1e3 {
			d.fault(p.as.line, p.as.what, "draw it again", "a bulge of %.4g", p.bulges[i])
			return
		}
		out = append(out, bulge(p.points[i], p.points[(i+1)%n], p.bulges[i], p.as)...)
	}
	d.add(out, p.flip)
}
