package inject

import (
	"errors"
	"fmt"
	"math"
)

// Size is a preform body by the rule of stretch ratios. m.
type Size struct {
	Length   float64 // stretched part, ledge to the middle of the gate
	Diameter float64 // on the radius on which the hoop ratio counts
	Wall     float64 // of equal volume
}

// SizeFor returns the preform body for a bottle by the trade's rule:
//
//	length = L/axial,  diameter = D/hoop,  wall = t axial hoop
//
// L, D and t are arc or height, diameter and wall of the bottle [m]. The rule
// leaves open on which radius the hoop ratio counts: give D there and read
// the diameter there; [costrel/physics/preform] tells them apart. Ratios in
// 1..8. Source: PreformTrader2013.
func SizeFor(length, diameter, wall, axial, hoop float64) (Size, error) {
	err := errors.Join(
		within("preform size", "bottle length", length, 0.01, 1, 1e3, "mm"),
		within("preform size", "bottle diameter", diameter, 0.01, 0.6, 1e3, "mm"),
		within("preform size", "bottle wall", wall, 0.05e-3, 3e-3, 1e3, "mm"),
		within("preform size", "axial ratio", axial, 1, 8, 1, ""),
		within("preform size", "hoop ratio", hoop, 1, 8, 1, ""),
	)
	if err != nil {
		return Size{}, err
	}
	s := Size{Length: length / axial, Diameter: diameter / hoop, Wall: wall * axial * hoop}
	if 2*s.Wall > s.Diameter {
		return Size{}, fmt.Errorf("inject: preform size: wall ‹%.3g mm› fills the diameter ‹%.3g mm›: lower the ratios", s.Wall*1e3, s.Diameter*1e3)
	}
	return s, nil
}

// HoopOuter returns the hoop ratio of the outer face from that of the inner
// one, for radii of preform and bottle [m]:
//
//	outer = inner (Ri/Ro)(ro/ri)
//
// with R of the preform, r of the bottle, i inside and o outside.
func HoopOuter(inner, preformInner, preformOuter, bottleInner, bottleOuter float64) (float64, error) {
	if !(preformInner > 0 && preformOuter > preformInner && bottleInner > 0 && bottleOuter > bottleInner && inner > 0) || math.IsInf(inner+preformOuter+bottleOuter, 0) {
		return 0, fmt.Errorf("inject: hoop ratio: radii %g..%g and ‹%g..%g m›, ratio %g: want positive, inner below outer", preformInner, preformOuter, bottleInner, bottleOuter, inner)
	}
	return inner * (preformInner / preformOuter) * (bottleOuter / bottleInner), nil
}

// Zones returns the walls [m] of shoulder and base to aim at for a panel wall
// [m]: the shoulder a fifth thicker, the base half as thick again as the
// shoulder. A rule of thumb for where material should go; the section weights
// of the design come first. Source: BrandauPreformDesign.
func Zones(panel float64) (shoulder, base float64, err error) {
	if err := within("zones", "panel wall", panel, 0.05e-3, 3e-3, 1e3, "mm"); err != nil {
		return 0, 0, err
	}
	c := deck.Card("shape")
	shoulder = panel * c.Value("shoulder")
	return shoulder, shoulder * c.Value("base"), nil
}

// Draft returns the draft angle [rad] of a face whose radius grows from tip to
// neck over a length [m], and a warning below 0.15°, where the preform sticks
// in the mould. Source: CommonPractice, from memory.
func Draft(tip, neck, length float64) (float64, []string, error) {
	if !(tip > 0 && neck >= tip && length > 0) || math.IsInf(neck+length, 0) {
		return 0, nil, fmt.Errorf("inject: draft: radii ‹%g m› at the tip, ‹%g m› at the neck over ‹%g m›: want the neck no smaller and a length above 0", tip, neck, length)
	}
	a := math.Atan((neck - tip) / length)
	if low := datum("shape", "draft").Low; a < low*(1-1e-9) {
		return a, []string{fmt.Sprintf("inject: draft %.2f° below %.2f°: the preform sticks in the mould", a*180/math.Pi, low*180/math.Pi)}, nil
	}
	return a, nil, nil
}
