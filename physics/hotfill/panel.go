package hotfill

import (
	"fmt"
	"math"
)

// Point is one point of a panel curve.
type Point struct {
	Vacuum float64 // below ambient [Pa], more than 0
	Volume float64 // given inward [m³]
}

// Panel is what the wall of a bottle gives: inward under vacuum, outward under
// pressure. The zero value is rigid.
type Panel struct {
	Compliance float64 // inward: volume per vacuum [m³/Pa]; 1 mL/kPa = 1e-9
	// Curve replaces Compliance: measured or computed points that rise from
	// (0, 0), joined by straight lines. Beyond the last point the last slope
	// goes on, with a warning.
	Curve []Point
	// Outward is the volume gained per pressure above ambient [m³/Pa]: a panel
	// pushed out soon stands on the round wall, which is far stiffer than the
	// panel is inward.
	Outward float64
}

func (p Panel) check() error {
	if !(p.Outward >= 0) || p.Outward > 1e-6 {
		return refuse("panel", "outward compliance", p.Outward*1e9, "mL/kPa", "0..1000 mL/kPa", "give the volume the wall gains per kPa of pressure")
	}
	if p.Curve == nil {
		if !(p.Compliance >= 0) || p.Compliance > 1e-6 {
			return refuse("panel", "compliance", p.Compliance*1e9, "mL/kPa", "0..1000 mL/kPa", "give the volume the panels yield per kPa of vacuum")
		}
		return nil
	}
	if p.Compliance != 0 {
		return refuse("panel", "compliance", p.Compliance*1e9, "mL/kPa", "0 beside a curve", "give a compliance or a curve, not both")
	}
	last := Point{}
	for i, q := range p.Curve {
		if !(q.Vacuum > last.Vacuum) || q.Vacuum > 200e3 {
			return refuse(fmt.Sprintf("panel: point %d", i+1), "vacuum", q.Vacuum/1e3, "kPa", fmt.Sprintf("more than %.6g, at most ‹200 kPa›", last.Vacuum/1e3), "sort the points; the first lies above 0")
		}
		if !(q.Volume >= last.Volume) || q.Volume > 1e-2 {
			return refuse(fmt.Sprintf("panel: point %d", i+1), "volume", q.Volume*1e6, "mL", fmt.Sprintf("‹%.6g..10000 mL›", last.Volume*1e6), "the volume does not fall as the vacuum grows")
		}
		last = q
	}
	return nil
}

// piece is a straight part of the curve: volume + slope (vacuum - from).
type piece struct{ from, volume, slope float64 }

// pieces returns the straight parts: the first from 0 down into pressure, the
// others from 0 up.
func (p Panel) pieces() []piece {
	out := make([]piece, 1, len(p.Curve)+2)
	out[0].slope = p.Outward
	if len(p.Curve) == 0 {
		return append(out, piece{slope: p.Compliance})
	}
	last := Point{}
	for _, q := range p.Curve {
		out = append(out, piece{last.Vacuum, last.Volume, (q.Volume - last.Volume) / (q.Vacuum - last.Vacuum)})
		last = q
	}
	return out
}

// Volume returns the volume the wall gives inward at a vacuum [m³]; negative
// under pressure.
func (p Panel) Volume(vacuum float64) float64 {
	if vacuum < 0 {
		return p.Outward * vacuum
	}
	if len(p.Curve) == 0 {
		return p.Compliance * vacuum
	}
	last := Point{}
	for i, q := range p.Curve {
		if vacuum <= q.Vacuum || i == len(p.Curve)-1 {
			return last.Volume + (q.Volume-last.Volume)/(q.Vacuum-last.Vacuum)*(vacuum-last.Vacuum)
		}
		last = q
	}
	return math.NaN() // not reached
}

// vacuumAt returns the vacuum at which the wall gives a volume [Pa]: the inverse
// of Volume. It is false where the wall never does, being rigid or locked.
func (p Panel) vacuumAt(volume float64) (float64, bool) {
	pieces := p.pieces()
	if volume < 0 {
		return volume / p.Outward, p.Outward > 0
	}
	pieces = pieces[1:]
	for i, q := range pieces {
		if i+1 < len(pieces) && volume > pieces[i+1].volume {
			continue
		}
		if q.slope > 0 {
			return q.from + (volume-q.volume)/q.slope, true
		}
	}
	return 0, false
}

// limit returns the vacuum of the last point, +Inf where there is no curve.
func (p Panel) limit() float64 {
	if len(p.Curve) == 0 {
		return math.Inf(1)
	}
	return p.Curve[len(p.Curve)-1].Vacuum
}
