package inject

import (
	"errors"
	"math"

	"costrel/unit"
)

// Cycle returns the estimate of the cycle of a preform [s]: the cooling of a
// plate to a mean of 110 °C times 0.6 to 0.8, because take-out places finish
// it, and 2 to 3 s in which nothing cools. wall is the thickest wall that must
// not stick, usually that of the body; 1 to 8 mm. Source: BallmanShusman1959
// for the plate, CommonPractice for the rest; thin preforms run at about 6 s
// (BrandauCycles).
func Cycle(wall float64) (Range, error) {
	if err := within("cycle", "wall", wall, 1e-3, 8e-3, 1e3, "mm"); err != nil {
		return Range{}, err
	}
	t, err := DefaultCooling(wall).ToMean(unit.Temperature(datum("cooling", "eject").Value))
	if err != nil {
		return Range{}, err
	}
	return cycle(t), nil
}

// Fill returns the estimate of the time to fill one cavity [s]: its mass [kg]
// over 8 to 12 g/s up to a wall [m] of 4 mm, growing to 19.4 g/s at 8.5 mm.
// Source: BrandauCycles.
func Fill(mass, wall float64) (Range, error) {
	if err := errors.Join(
		within("filling", "mass", mass, 1e-3, 1, 1e3, "g"),
		within("filling", "wall", wall, 1e-3, 8.5e-3, 1e3, "mm"),
	); err != nil {
		return Range{}, err
	}
	thin, thick := datum("filling", "rate"), datum("filling", "rate_thick")
	x := math.Max(0, (wall-4e-3)/4.5e-3)
	rate := func(a, b float64) float64 { return a + x*(b-a) }
	return Range{mass / rate(thin.High, thick.High), mass / rate(thin.Value, thick.Value), mass / rate(thin.Low, thick.Low)}, nil
}

// Clamp returns the estimate of the clamp force of a mould [N]: mean pressure
// in the cavity, 25 to 35 MPa, times the projected area of the largest
// diameter [m] (the ledge of the finish) times the cavities. 28 mm finishes
// come to some 2.2 to 3 t a cavity. Source: CommonPractice, from memory.
func Clamp(diameter float64, cavities int) (Range, error) {
	if err := errors.Join(
		within("clamp", "diameter", diameter, 5e-3, 0.2, 1e3, "mm"),
		within("clamp", "cavities", float64(cavities), 1, 400, 1, ""),
	); err != nil {
		return Range{}, err
	}
	p := datum("filling", "cavity_pressure")
	a := math.Pi / 4 * diameter * diameter * float64(cavities)
	return Range{p.Low * a, p.Value * a, p.High * a}, nil
}

// Cavity returns the size to cut for a size of the cold preform [m]: the size
// over 1 less the shrinkage, 0.3 to 0.6 % of diameters and 0.4 to 0.8 % of
// length. Source: CommonPractice, from memory.
func Cavity(size float64, length bool) (Range, error) {
	if err := within("cavity", "size", size, 0.1e-3, 1, 1e3, "mm"); err != nil {
		return Range{}, err
	}
	key := "shrink_diameter"
	if length {
		key = "shrink_length"
	}
	s := datum("filling", key)
	return Range{size / (1 - s.Low), size / (1 - s.Value), size / (1 - s.High)}, nil
}

// Residence returns the mean time of the melt in the machine [s]: the melt it
// holds in barrel and hot runner [kg] over the shot of all cavities [kg],
// times the cycle [s].
func Residence(inventory, shot, cycle float64) (float64, error) {
	if err := errors.Join(
		within("residence", "melt in the machine", inventory, 1e-4, 1e4, 1, "kg"),
		within("residence", "shot", shot, 1e-4, 1e3, 1, "kg"),
		within("residence", "cycle", cycle, 0.5, 600, 1, "s"),
	); err != nil {
		return 0, err
	}
	return inventory / shot * cycle, nil
}
