package finish

import (
	"fmt"
	"math"
)

// Turns returns the turns from first engagement to seated, travel/360°.
func (f Finish) Turns() float64 { return f.Travel / (2 * math.Pi) }

// Lead returns the rise of the closure in one turn [m], pitch times starts.
func (f Finish) Lead() float64 { return f.Pitch * float64(f.Starts) }

// Lift returns the rise of the closure over an angle [rad], in m.
func (f Finish) Lift(angle float64) float64 { return f.Lead() * angle / (2 * math.Pi) }

// MeanThread returns the mean diameter of the thread [m], (T + E)/2.
func (f Finish) MeanThread() float64 { return (f.ThreadOD + f.Root) / 2 }

// ThreadDepth returns the radial depth of the thread [m], (T - E)/2.
func (f Finish) ThreadDepth() float64 { return (f.ThreadOD - f.Root) / 2 }

// Helix returns the lead angle of the thread [rad], atan(lead/(pi d)) at the
// mean diameter.
func (f Finish) Helix() float64 { return math.Atan(f.Lead() / (math.Pi * f.MeanThread())) }

// LandRadius returns the mean radius of the seal land [m], midway between bore
// and lip: the lever of the friction between closure and land.
func (f Finish) LandRadius() float64 { return (f.Bore + f.LipOD) / 4 }

// LandArea returns the area of the seal land [m²], between bore and lip.
func (f Finish) LandArea() float64 { return math.Pi / 4 * (f.LipOD*f.LipOD - f.Bore*f.Bore) }

// VentShare returns the share of the thread's circumference that vent slots
// cut away.
func (f Finish) VentShare() float64 {
	return float64(f.VentSlots) * f.VentWidth / (math.Pi * f.MeanThread())
}

// VentArea returns the area of the vent slots [m²], slots times width times
// thread depth. Zero when the card has no slots.
func (f Finish) VentArea() float64 {
	return float64(f.VentSlots) * f.VentWidth * f.ThreadDepth()
}

// Engaged returns the turns of thread of each start that are still engaged
// after the closure has been opened by an angle [rad]; never below 0.
func (f Finish) Engaged(opened float64) (float64, error) {
	if !(opened >= 0) || math.IsInf(opened, 0) {
		return 0, fmt.Errorf("finish: %s: opening angle %g rad below 0", f.Name, opened)
	}
	return max(0, f.Travel-opened) / (2 * math.Pi), nil
}

// MassFromGeometry estimates the mass of the finish [kg] from its dimensions
// and the density of the resin [kg/m³]: tube from bore to root over the
// height, thread half a pitch wide less the vents, a bead 1.5 mm high, relief
// down to the ledge, and the ledge with an underside sloping at 15°. It leaves
// out chamfers, the groove above the ledge and faded thread ends, and comes
// out a tenth too heavy for the short and the tall 28 mm neck. It is there to
// expose a wrong card, not to replace a weight.
func (f Finish) MassFromGeometry(density float64) (float64, error) {
	if !(density >= 500 && density <= 3000) {
		return 0, fmt.Errorf("finish: %s: density %g kg/m³ outside 500..3000 kg/m³", f.Name, density)
	}
	const (
		beadHeight = 1.5e-3
		slope      = 0.268 // tan 15°
	)
	ring := func(outer, inner float64) float64 {
		return math.Pi / 4 * max(0, outer*outer-inner*inner)
	}
	v := ring(f.Root, f.Bore) * f.Height
	arc := float64(f.Starts) * f.Travel * f.MeanThread() / 2
	v += arc * (1 - f.VentShare()) * f.ThreadDepth() * f.Pitch / 2
	if f.BeadOD > 0 {
		v += ring(f.BeadOD, max(f.Root, f.ReliefOD)) * beadHeight
	}
	if f.ReliefOD > 0 && f.BeadDepth > 0 {
		v += ring(f.ReliefOD, f.Root) * (f.Height - f.BeadDepth)
	}
	overhang := (f.LedgeOD - f.Root) / 2
	v += ring(f.LedgeOD, f.Bore)*f.LedgeThickness + math.Pi*(f.Root+overhang*2/3)*overhang*overhang*slope/2
	return v * density, nil
}
