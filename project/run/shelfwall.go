package run

import (
	"errors"
	"fmt"
	"math"

	"costrel/physics/drink"
	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// zoneNames are the zones of the wall: the stretched wall from the base up,
// then what is barely stretched at gate and neck.
var zoneNames = [...]string{"base", "panel", "shoulder", "gate", "neck"}

// piece is the wall between two stations of the outline.
type piece struct {
	zone              int
	at                float64 // arc from the gate to its middle [m]
	area, thickness   float64 // of the real surface [m²], [m]
	crystals, stretch float64 // of the blow; 0 without one
}

// wallZones gathers the wall into zones: the stretched wall of base, panel and
// shoulder, what is barely stretched at gate and neck, and the finish. The
// thickness of a zone is that which passes as much as its parts do side by
// side. After a blow PET has at every place the material of its crystals and
// its stretch ([permeation.Local]); the preview knows neither, and there the
// card decides, by whether the planar stretch reaches [orientedFrom].
func wallZones(d *design.Design, w *Wall, shape *Shape) ([]permeation.WallZone, error) {
	pieces := wallPieces(w, shape)
	var zones []permeation.WallZone
	var err error
	if localWall(d, w) {
		zones, err = localZones(pieces)
	} else {
		zones, err = cardZones(d, pieces)
	}
	if err != nil {
		return nil, err
	}
	bare, err := unstretched(d)
	if err != nil {
		return nil, err
	}
	// The finish: gas stands in the bore above the ledge.
	neck := shape.Bottle.Spec().Rows[len(shape.Bottle.Spec().Rows)-1].R
	if t := neck - d.Finish.Bore/2; t > 0.2e-3 {
		zones = append(zones, permeation.WallZone{Name: "finish", Area: math.Pi * d.Finish.Bore * d.Finish.Height, Thickness: t, Material: bare})
	}
	if err := scaleAndBlend(d, zones); err != nil {
		return nil, err
	}
	return zones, coat(d, zones)
}

// localWall tells whether the wall takes its barrier from the blow, by place.
func localWall(d *design.Design, w *Wall) bool { return w.Blown != nil && d.Shelf.Material == "wall" }

// unstretched is the material of finish, gate and neck by the cards.
func unstretched(d *design.Design) (permeation.Material, error) {
	if d.Shelf.Material == "wall" {
		return permeation.Named("amorphous")
	}
	return permeation.Named(d.Shelf.Material)
}

func wallPieces(w *Wall, shape *Shape) []piece {
	var out []piece
	for i := 1; i < len(w.S); i++ {
		// The real base has more surface and a thinner wall than its average.
		q := (w.Real[i] + w.Real[i-1]) / 2
		p := piece{at: (w.S[i] + w.S[i-1]) / 2, area: (w.Area[i] - w.Area[i-1]) * q, thickness: (w.T[i] + w.T[i-1]) / 2 / q}
		for p.zone < len(w.Parts) && w.S[i] > shape.Bottle.CutS(w.Parts[p.zone]) {
			p.zone++
		}
		planar := (w.Planar[i] + w.Planar[i-1]) / 2
		if planar < orientedFrom {
			p.zone = 3
			if w.S[i] > w.S[len(w.S)-1]/2 {
				p.zone = 4
			}
		}
		if b := w.Blown; b != nil {
			p.crystals, p.stretch = between(b.S, b.X, (w.S[i]+w.S[i-1])/2), planar*q
		}
		if p.area > 0 {
			out = append(out, p)
		}
	}
	return out
}

// cardZones gives the stretched zones the material of the design and the
// others that of the unstretched.
func cardZones(d *design.Design, pieces []piece) ([]permeation.WallZone, error) {
	oriented, err := permeation.Named(d.Shelf.Material)
	if err != nil {
		return nil, err
	}
	bare, err := unstretched(d)
	if err != nil {
		return nil, err
	}
	var area, passes [len(zoneNames)]float64
	for _, p := range pieces {
		area[p.zone] += p.area
		passes[p.zone] += p.area / p.thickness
	}
	var zones []permeation.WallZone
	for i, name := range zoneNames {
		if area[i] <= 0 {
			continue
		}
		m := oriented
		if i > 2 {
			m = bare
		}
		zones = append(zones, permeation.WallZone{Name: name, Area: area[i], Thickness: area[i] / passes[i], Material: m})
	}
	return zones, nil
}

// localZones lumps the pieces of every zone, each with the barrier of its own
// crystals and stretch.
func localZones(pieces []piece) ([]permeation.WallZone, error) {
	var zones []permeation.WallZone
	for i, name := range zoneNames {
		var parts []permeation.Part
		var crystals, stretch, sum float64
		for _, p := range pieces {
			if p.zone != i {
				continue
			}
			m, err := localMaterial(p)
			if err != nil {
				return nil, err
			}
			parts = append(parts, permeation.Part{Area: p.area, Thickness: p.thickness, Material: m})
			v := p.area * p.thickness
			crystals, stretch, sum = crystals+v*p.crystals, stretch+v*p.stretch, sum+v
		}
		if parts == nil {
			continue
		}
		z, err := permeation.Lumped(name, parts)
		if err != nil {
			return nil, err
		}
		z.Crystals, z.Stretch = crystals/sum, stretch/sum
		z.Material.Title = fmt.Sprintf("PET of the blow in the %s, %.3g %% crystals, stretched %.3g times in area", name, 100*z.Crystals, z.Stretch)
		zones = append(zones, z)
	}
	if zones == nil {
		return nil, errors.New("shelf: the blown wall has no area")
	}
	return zones, nil
}

// scaleAndBlend puts factor, preset and passive blend on the plastic of every
// zone: platelets in the stretched wall, spheres in what is not stretched.
func scaleAndBlend(d *design.Design, zones []permeation.WallZone) error {
	preset, ok := permeation.Presets().Get(d.Shelf.Preset)
	if !ok {
		return fmt.Errorf("shelf.preset: no preset %q", d.Shelf.Preset)
	}
	share, err := permeation.VolumeFraction(d.Shelf.Blend, d.Shelf.BlendRho, d.Resin.DensityWall)
	if err != nil {
		return err
	}
	for i := range zones {
		z := &zones[i]
		if z.Material.Tight {
			continue
		}
		if f := d.Shelf.Factor * preset.Value; f != 1 {
			if z.Material, err = z.Material.Scaled(f); err != nil {
				return err
			}
		}
		if share == 0 {
			continue
		}
		aspect := d.Shelf.Aspect
		if !stretched(z.Name) {
			aspect = 1
		}
		if z.Material, err = z.Material.Blended(share, aspect); err != nil {
			return err
		}
	}
	return nil
}

// stretched tells whether a zone is of the stretched wall.
func stretched(zone string) bool { return zone == "base" || zone == "panel" || zone == "shoulder" }

// barrierNotes says what preset, blend and closure of the design rest on.
func barrierNotes(d *design.Design) []string {
	var out []string
	if p, ok := permeation.Presets().Get(d.Shelf.Preset); ok && d.Shelf.Preset != "central" {
		out = append(out, fmt.Sprintf("shelf.preset %s: factor %g; %s: %s", d.Shelf.Preset, p.Value, p.Label, p.Note))
	}
	if d.Shelf.Blend > 0 && !tight(d) {
		out = append(out, "shelf.blend_share: Nielsen's rule for platelets that lie in the wall; how they lie and how thin they are in your wall is not known here, measure a bottle")
	}
	if d.Closure.Scavenge > 0 && d.Closure.Share == 0 {
		out = append(out, "closure.scavenger does nothing while closure.scavenger_share is 0 %")
	}
	return out
}

// wallNotes says where wall and barrier come from. Behind a tight wall its
// thickness counts for the growth alone, as materialNotes says.
func wallNotes(d *design.Design, w *Wall) []string {
	if tight(d) {
		return nil
	}
	own := w.note()
	switch blown := w.Blown != nil; {
	case blown && fittedOn(d, true):
		own = "the wall is computed by the blow, not measured; the barrier factor was fitted on it and holds wall and closure together"
	case d.Shelf.FittedAt != nil && !fittedOn(d, blown):
		return append([]string{fittedElsewhere(blown), own}, wallSort(d, w)...)
	}
	return append([]string{own}, wallSort(d, w)...)
}

// fittedElsewhere warns of a barrier factor that belongs to the other wall.
func fittedElsewhere(blown bool) string {
	if blown {
		return quality.EstimatePrefix + ": shelf.barrier_factor was fitted on the wall of the preview (shelf.fitted_wall), and this is the wall of the blow: fit the pulls again with calibrate --blown; until then the band counts wall and closure as not fitted"
	}
	return quality.EstimatePrefix + ": shelf.barrier_factor was fitted on the wall of the blow (shelf.fitted_wall), and this is the preview: a full check has the wall it belongs to; the band counts wall and closure as not fitted"
}

// wallSort says what the barrier of the wall goes by.
func wallSort(d *design.Design, w *Wall) []string {
	switch {
	case localWall(d, w):
		return []string{"every zone of the wall has the barrier of its own thickness, crystals and stretch from the blow; without a blow the card of the stretched wall (27 % crystals) stands for all of it, so that a preview may differ"}
	case w.Blown != nil:
		return []string{"shelf.material " + d.Shelf.Material + ": its card stands for all of the wall; crystals and stretch of the blow are not used"}
	}
	return nil
}

// coat puts the design's coating on the stretched wall: finish and gate stay
// bare. Each zone gets the permeance at 23 °C that the improvement asks for.
func coat(d *design.Design, zones []permeation.WallZone) error {
	k := d.Shelf.Improve
	air := k
	if d.Shelf.ImproveAir != nil {
		air = *d.Shelf.ImproveAir
	}
	plastic := 0.0
	for _, z := range zones {
		plastic += z.Area * z.Thickness
	}
	for i := range zones {
		z := &zones[i]
		if z.Material.Tight {
			continue // a coating or a scavenger changes nothing; materialNotes says so
		}
		if d.Shelf.Scavenger > 0 && plastic > 0 {
			z.Scavenger.Capacity = d.Shelf.Scavenger / drink.MolarMassOxygen / plastic
		}
		if d.Shelf.Coating == "none" || k <= 1 && air <= 1 || !stretched(z.Name) {
			continue
		}
		t := unit.Celsius(23)
		co2, err := z.Material.CO2.Permeability(t, 4e5)
		if err != nil {
			return err
		}
		var layer permeation.Coating
		for _, g := range []struct {
			p, by float64
			to    *float64
		}{{co2, k, &layer.CO2}, {z.Material.Oxygen.Permeability.At(t), air, &layer.Oxygen}, {z.Material.Nitrogen.Permeability.At(t), air, &layer.Nitrogen}} {
			if g.by <= 1 {
				continue // bare for this gas
			}
			if *g.to, err = permeation.CoatingFor(g.p, z.Thickness, g.by); err != nil {
				return err
			}
		}
		if d.Shelf.Coating == "inner" {
			z.Inner = layer
		} else {
			z.Outer = layer
		}
	}
	return nil
}
