package shell

import (
	"fmt"
	"math"
)

// DomeLeast is the rise of a [Dome] from its gate to the body, as a share of the
// radius there, that it must exceed: chosen for this project, flatter ones are
// plates.
const DomeLeast = 0.2

// Dome returns the stations of the shell of revolution that stands for a
// petaloid base: the ellipse on which its valleys lie, from the gate at
// clearance [m] above the standing plane to the body of outer radius radius at
// height. wall gives thickness by the share of the arc parameter (0 at the
// gate, 1 at the body), ply the layers. The last station lies below height, so
// that the stations of the body can follow.
//
// An estimate: feet stiffen the dome against axial load and bend under
// pressure; [Strap] and the foot factor of [PushUp] stand for that. Set
// Bottle.Stand to the radius of the feet.
func Dome(radius, height, clearance float64, n int, wall func(share float64) float64, ply func(share float64) Layers) ([]Station, error) {
	if !(radius > 1e-3) || !(clearance >= 0) || !(height > clearance+DomeLeast*radius) || n < 6 || n > 10000 {
		return nil, fmt.Errorf("shell: dome: radius ‹%g m›, height ‹%g m›, clearance ‹%g m›, %d stations (6..10000)", radius, height, clearance, n)
	}
	out := make([]Station, n)
	for i := range out {
		x := float64(i) / float64(n)
		s, c := math.Sincos(math.Pi / 2 * x)
		out[i] = Station{Z: clearance + (height-clearance)*(1-c), R: radius * s, Wall: wall(x), Ply: ply(x)}
	}
	return out, nil
}
