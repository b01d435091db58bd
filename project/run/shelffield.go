package run

import (
	"math"

	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/unit"
)

// barrierPlot draws what the wall lets through by place: of CO2 for a carbonated
// drink, of oxygen for any other. Pressures are those that coatings are given
// for, 4 bar of CO2 at 23 °C.
func (s *shelfLife) barrierPlot() error {
	w := from[*Wall](s.pass, "wall")
	shape := from[*Shape](s.pass, "bottle")
	gas, name := permeation.CO2, "CO2"
	if !carbonated(s.d) {
		gas, name = permeation.Oxygen, "oxygen"
	}
	at, permeance, err := barrierAlong(s.d, w, shape, s.pc.Zones, gas)
	if err != nil {
		return err
	}
	s.plot(Plot{
		Key: "shelf.barrier", Title: "Barrier along the wall, " + name,
		X: Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "let through at ‹23 °C›", Kind: unit.GasPermeance},
		Series: []Series{{Name: "wall", X: at, Y: permeance}}, Note: "steady state, coating included; less is tighter; " + w.note(),
	})
	return nil
}

// barrierAlong returns the permeance of the wall [mol/(m²·s·Pa)] at arcs from
// the gate [m]: of each piece its thickness and its material, those by which
// [wallZones] lumps it, in series with the coating of its zone.
//
//	1/Q = t/P + 1/Q_inner + 1/Q_outer
func barrierAlong(d *design.Design, w *Wall, shape *Shape, zones []permeation.WallZone, gas permeation.Gas) (at, permeance []float64, err error) {
	pieces := wallPieces(w, shape)
	parts := make([]permeation.WallZone, len(pieces))
	bare, err := unstretched(d)
	if err != nil {
		return nil, nil, err
	}
	oriented, err := permeation.Named(d.Shelf.Material)
	if err != nil {
		return nil, nil, err
	}
	for i, p := range pieces {
		m := oriented
		switch {
		case localWall(d, w):
			if m, err = localMaterial(p); err != nil {
				return nil, nil, err
			}
		case !stretched(zoneNames[p.zone]):
			m = bare
		}
		parts[i] = permeation.WallZone{Name: zoneNames[p.zone], Area: p.area, Thickness: p.thickness, Material: m}
	}
	if err := scaleAndBlend(d, parts); err != nil {
		return nil, nil, err
	}
	layers := map[string]permeation.WallZone{}
	for _, z := range zones {
		layers[z.Name] = z
	}
	for i, z := range parts {
		at = append(at, pieces[i].at)
		p, err := plasticPermeability(z.Material, gas)
		if err != nil {
			return nil, nil, err
		}
		through := 0.0
		if p > 0 {
			resistance := z.Thickness / p
			for _, c := range []permeation.Coating{layers[z.Name].Inner, layers[z.Name].Outer} {
				if q := [...]float64{permeation.CO2: c.CO2, permeation.Oxygen: c.Oxygen}[gas]; q > 0 {
					resistance += 1 / q
				}
			}
			through = 1 / resistance
		}
		permeance = append(permeance, through)
	}
	return at, permeance, nil
}

// plasticPermeability of a material to a gas at 23 °C [mol·m/(m²·s·Pa)]; 0 of a
// tight one.
func plasticPermeability(m permeation.Material, gas permeation.Gas) (float64, error) {
	t := unit.Celsius(23)
	switch {
	case m.Tight:
		return 0, nil
	case gas == permeation.CO2:
		return m.CO2.Permeability(t, 4e5)
	}
	return m.Oxygen.Permeability.At(t), nil
}

// localMaterial is PET with the crystals and the stretch of a piece.
func localMaterial(p piece) (permeation.Material, error) {
	return permeation.Local(math.Min(math.Max(p.crystals, 0), 0.6), math.Min(math.Max(p.stretch, 1), 40))
}
