package permeation

import (
	"fmt"
	"math"
)

// The wall that the card "wall" stands for, and where orientation sets in.
// From memory and chosen for this project.
const (
	// WallCrystallinity is the volume share of crystals in the card "wall".
	WallCrystallinity = 0.27
	crystalAspect     = 4
	// Orientation counts in full well above this stretch in area, not at all
	// well below; permeability drops abruptly there and hardly falls further
	// (SwaroopGordon1980).
	orientAt, orientWidth = 2.5, 0.25
)

// Local returns the material of a place of a PET wall from what the blow made
// of it: crystallinity (share by volume, 0..0.6) and stretch in area (>= 1).
//
//	solubility   S = S_am (1 - phi)             f_S^w
//	diffusivity  D = D_am / (1 + alpha phi/2)   f_D^w
//
// with alpha = 4 and w the share of orientation, a step over the stretch at
// 2.5. The two factors f are such that full orientation at 27 % crystals is the
// card "wall", and none at 0 % the card "amorphous": between these the form is
// Nielsen's, beyond them it extrapolates. Crystals by heat without orientation
// (w small) come out less of a barrier than a stretched wall.
// Source: Nielsen1967, Sekelik1999; the step SwaroopGordon1980.
func Local(crystallinity, stretch float64) (Material, error) {
	if !(crystallinity >= 0 && crystallinity <= 0.6) {
		return Material{}, fmt.Errorf("permeation: local wall: crystallinity %g outside 0..0.6", crystallinity)
	}
	if !(stretch >= 0.9 && stretch <= 40) {
		return Material{}, fmt.Errorf("permeation: local wall: stretch in area %g outside 0.9..40", stretch)
	}
	am, err := Named("amorphous")
	if err != nil {
		return Material{}, err
	}
	wall, err := Named("wall")
	if err != nil {
		return Material{}, err
	}
	w := 1 / (1 + math.Exp(-(stretch-orientAt)/orientWidth))
	hold := func(phi float64) float64 { return 1 - phi }
	slow := func(phi float64) float64 { return 1 / (1 + crystalAspect*phi/2) }
	mix := func(a, full float64, by ...func(float64) float64) float64 {
		now, then := 1.0, 1.0
		for _, f := range by {
			now *= f(crystallinity)
			then *= f(WallCrystallinity)
		}
		return a * now * math.Pow(full/(a*then), w)
	}
	out := am
	out.Name, out.Title = "local", fmt.Sprintf("PET, %.3g %% crystals, stretched %.3g times in area", 100*crystallinity, stretch)
	out.CO2.Henry.Value = mix(am.CO2.Henry.Value, wall.CO2.Henry.Value, hold)
	out.CO2.Capacity = mix(am.CO2.Capacity, wall.CO2.Capacity, hold)
	out.CO2.Diffusivity.Value = mix(am.CO2.Diffusivity.Value, wall.CO2.Diffusivity.Value, slow)
	for _, h := range []struct{ out, am, wall *Henry }{{&out.Oxygen, &am.Oxygen, &wall.Oxygen}, {&out.Nitrogen, &am.Nitrogen, &wall.Nitrogen}} {
		h.out.Permeability.Value = mix(h.am.Permeability.Value, h.wall.Permeability.Value, hold, slow)
		h.out.Diffusivity.Value = mix(h.am.Diffusivity.Value, h.wall.Diffusivity.Value, slow)
	}
	out.Water.Value = mix(am.Water.Value, wall.Water.Value, hold, slow)
	return out, nil
}

// Blended returns the material with impermeable platelets of volume fraction
// phi and aspect ratio alpha in it, passive, by [Nielsen]: solubilities times
// 1 - phi, diffusivities over 1 + alpha phi/2. Water passes as before, which
// is on the safe side for the loss of water.
func (m Material) Blended(phi, alpha float64) (Material, error) {
	if _, err := Nielsen(phi, alpha); err != nil {
		return Material{}, err
	}
	if m.Tight {
		return m, nil
	}
	hold, slow := 1-phi, 1/(1+alpha*phi/2)
	m.CO2.Henry.Value *= hold
	m.CO2.Capacity *= hold
	m.CO2.Diffusivity.Value *= slow
	for _, h := range []*Henry{&m.Oxygen, &m.Nitrogen} {
		h.Permeability.Value *= hold * slow
		h.Diffusivity.Value *= slow
	}
	return m, nil
}

// ScavengerCapacity returns the oxygen that a wall of the density [kg/m³] binds
// [mol/m³] with a mass share of a polymer that binds capacity kilograms of
// oxygen for each of its own: 0.076 or more for an oxidised aromatic polyamide
// (BrewingScience2011).
func ScavengerCapacity(share, capacity, density float64) (float64, error) {
	for _, v := range []struct {
		item       string
		x, lo, hii float64
	}{{"mass share", share, 0, 1}, {"capacity", capacity, 0, 1}, {"density", density, 500, 3000}} {
		if !(v.x >= v.lo && v.x <= v.hii) {
			return 0, fmt.Errorf("permeation: scavenger: %s %g outside %g..%g", v.item, v.x, v.lo, v.hii)
		}
	}
	return share * capacity * density / 31.9988e-3, nil
}
