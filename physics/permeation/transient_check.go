package permeation

import (
	"errors"
	"fmt"
	"math"
)

// Check returns every fault of the pack.
func (p Pack) Check() error {
	var faults []error
	within := func(item string, x, low, high, scale float64, symbol string) {
		if !(x >= low && x <= high) {
			faults = append(faults, fmt.Errorf("permeation: pack: %s ‹%.6g %s› outside ‹%.6g..%.6g %s›", item, x*scale, symbol, low*scale, high*scale, symbol))
		}
	}
	within("brimful volume", p.Volume, 1e-6, 0.1, 1e6, "mL")
	within("liquid", p.Contents.Liquid, 1e-6, 100, 1e3, "g")
	for _, g := range []struct {
		g Gas
		x float64
	}{{CO2, p.Contents.CO2}, {Oxygen, p.Contents.Oxygen}, {Nitrogen, p.Contents.Nitrogen}} {
		within(g.g.String()+" inside", g.x, 0, 100, 1, "mol")
	}
	if len(p.Zones) > 64 {
		faults = append(faults, fmt.Errorf("permeation: pack: %d zones, more than 64", len(p.Zones)))
	}
	for i, z := range p.Zones {
		where := fmt.Sprintf("zone %d (%s): ", i+1, z.Name)
		within(where+"area", z.Area, 0, 10, 1e4, "cm²")
		within(where+"thickness", z.Thickness, 1e-6, 0.05, 1e3, "mm")
		for _, c := range []struct {
			face string
			Coating
		}{{"inner", z.Inner}, {"outer", z.Outer}} {
			for _, v := range []float64{c.CO2, c.Oxygen, c.Nitrogen, c.Water} {
				within(where+c.face+" coating: permeance", v, 0, 1, 1, "mol/(m²·s·Pa)")
			}
		}
		within(where+"scavenger: capacity", z.Scavenger.Capacity, 0, 1e5, 1, "mol/m³")
		within(where+"scavenger: rate", z.Scavenger.Rate, 0, 1e3, 1, "1/s")
		if !z.Material.Tight && !(z.Material.CO2.Diffusivity.Value > 0 && z.Material.Water.Value > 0) {
			faults = append(faults, fmt.Errorf("permeation: pack: %smaterial %q has no diffusivity", where, z.Material.Name))
		}
	}
	for _, v := range []struct {
		item string
		x    float64
	}{{"CO2", p.Cap.CO2}, {"O2", p.Cap.Oxygen}, {"N2", p.Cap.Nitrogen}} {
		within("closure: conductance of "+v.item, v.x, 0, 1e-9, 1, "mol/(s·Pa)")
	}
	within("closure: conductance of water", p.Cap.Water, 0, 1e-6, 1, "kg/(s·Pa)")
	within("closure: leak", p.Cap.Leak, 0, 1e-12, 1, "mol/(s·Pa²)")
	within("closure: share of the scavenger", p.Cap.Scavenger.Share, 0, 1, 1, "")
	within("closure: scavenger: capacity", p.Cap.Scavenger.Capacity, 0, 1, 1, "mol")
	if p.Cap.CO2+p.Cap.Oxygen+p.Cap.Nitrogen > 0 {
		if err := CheckTemperature(p.Cap.Reference); err != nil {
			faults = append(faults, fmt.Errorf("%w: reference of the closure", err))
		}
	}
	within("closure: activation energy", p.Cap.Energy, 0, 300e3, 1e-3, "kJ/mol")
	within("growth: elastic", p.Growth.Elastic, 0, 1e-6, 1e5, "1/bar")
	within("growth: age of the bottle", p.Growth.Age, 0, 1e10, 1/day, "d")
	within("growth: exponent of age", p.Growth.AgeExponent, 0, 1, 1, "")
	if len(p.Growth.Terms) > 0 {
		if err := CheckTemperature(p.Growth.Reference); err != nil {
			faults = append(faults, fmt.Errorf("%w: reference of the growth", err))
		}
		within("growth: activation energy", p.Growth.Energy, 0, 500e3, 1e-3, "kJ/mol")
	}
	if len(p.Growth.Terms) > 20 {
		faults = append(faults, fmt.Errorf("permeation: pack: %d delayed parts of the growth, more than 20", len(p.Growth.Terms)))
	}
	for i, k := range p.Growth.Terms {
		within(fmt.Sprintf("growth: part %d: ratio", i+1), k.Ratio, 0, 10, 1, "")
		within(fmt.Sprintf("growth: part %d: time", i+1), k.Time, 1, 1e11, 1/day, "d")
	}
	last := PanelPoint{}
	for i, q := range p.Growth.Panel {
		if !(q.Vacuum > last.Vacuum) || !(q.Volume >= last.Volume) || q.Vacuum > 200e3 || q.Volume > 0.01 {
			faults = append(faults, fmt.Errorf("permeation: pack: panel point %d (‹%.6g kPa›, ‹%.6g mL›) does not rise from (‹%.6g kPa›, ‹%.6g mL›)", i+1, q.Vacuum/1e3, q.Volume*1e6, last.Vacuum/1e3, last.Volume*1e6))
		}
		last = q
	}
	within("oxygen uptake of the drink", p.Uptake.Rate, 0, 1, day, "1/d")
	within("acid of the drink", p.Uptake.Acid, 0, 1e3, 1, "mol")
	within("oxygen uptake: stoichiometry", p.Uptake.Stoichiometry, 0, 100, 1, "mol/mol")
	if p.Uptake.Acid > 0 && p.Uptake.Stoichiometry == 0 {
		faults = append(faults, errors.New("permeation: pack: an acid without stoichiometry, want moles of acid for a mole of oxygen"))
	}
	if p.Read != 0 {
		if err := CheckTemperature(p.Read); err != nil {
			faults = append(faults, fmt.Errorf("%w: temperature of reading", err))
		}
	}
	if f := p.Filler; f != nil && (!(f.Headspace > 0) || !(f.Gas >= 0) || !(f.Dissolved >= 0) || math.IsInf(f.Headspace+f.Gas+f.Dissolved, 0)) {
		faults = append(faults, fmt.Errorf("permeation: pack: filler: dissolved %g mol, gas %g mol in ‹%g mL›, want none negative", f.Dissolved, f.Gas, f.Headspace*1e6))
	}
	return errors.Join(faults...)
}
