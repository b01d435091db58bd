package resin

import (
	"math"

	"costrel/cite"
	"costrel/unit"
)

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	older, lab := Older(), Laboratory()
	percent := func(v float64, err error) float64 { return 100 * cite.Or(v, err) }
	return append(append(QuiescentChecks(), HotChecks()...), []cite.Check{
		{
			ID: "resin.crystallinity.1360", Case: "crystallinity by volume at 1360 kg/m³, 1335 and 1455", Source: "DaubenyBunnBrown1954",
			Unit: "%", Ours: func() float64 { return percent(older.VolumeFraction(1360)) }, Published: 20.8, Allowed: 0.05, Mark: cite.Practice,
		},
		{
			ID: "resin.crystallinity.1365", Case: "crystallinity by volume at 1365 kg/m³, 1335 and 1455", Source: "SupplierCrystallinity",
			Unit: "%", Ours: func() float64 { return percent(older.VolumeFraction(1365)) }, Published: 25, Allowed: 0.5, Mark: cite.Independent,
			Note: "printed as 25 %",
		},
		{
			ID: "resin.crystallinity.1375", Case: "crystallinity by volume at 1374.6 kg/m³, 1335 and 1455", Source: "DaubenyBunnBrown1954",
			Unit: "%", Ours: func() float64 { return percent(older.VolumeFraction(1374.6)) }, Published: 33, Allowed: 0.05, Mark: cite.Practice,
		},
		{
			ID: "resin.crystallinity.1380", Case: "crystallinity at 1380 kg/m³, 1335 and 1455", Source: "SupplierCrystallinity",
			Unit: "%", Ours: func() float64 { return percent(older.VolumeFraction(1380)) }, Published: 39, Allowed: 2, Mark: cite.Independent,
			Note: "the page's end points are not stated; by 1335 and 1455 it is 37.5 by volume, 39.5 by mass",
		},
		{
			ID: "resin.crystallinity.laboratory", Case: "crystallinity by volume at 1367 kg/m³, gradient column", Source: "PTIMethods",
			Unit: "%", Ours: func() float64 { return percent(lab.VolumeFraction(1367)) }, Published: 28.4, Allowed: 0.05, Mark: cite.Regression,
			Note: "end points published, arithmetic ours",
		},
		{
			ID: "resin.density.mass45", Case: "density of PET crystalline to 45 % by mass, 1335 and 1455", Source: "TextileExam",
			Unit: "kg/m³", Ours: func() float64 { return cite.Or(older.DensityAtMass(0.45)) }, Published: 1386, Allowed: 1, Mark: cite.Independent,
		},
		{
			ID: "resin.enthalpy.20to105C", Case: "heat of amorphous PET from 20 to 105 °C", Source: "ATHAS",
			Unit: "kJ/kg", Ours: func() float64 {
				h, _, err := Enthalpy(unit.Celsius(20), unit.Celsius(105))
				return cite.Or(h, err) / 1e3
			}, Published: 125.5, Allowed: 2.5, Mark: cite.Memory,
		},
		{
			ID: "resin.cp.95C", Case: "heat capacity at 95 °C", Source: "ATHAS",
			Unit: "J/(g·K)", Ours: func() float64 { return cite.Or(HeatCapacity(unit.Celsius(95))) / 1e3 }, Published: 1.81, Allowed: 0.005, Mark: cite.Memory,
		},
		{
			ID: "resin.cp.280C", Case: "heat capacity at 280 °C", Source: "ATHAS",
			Unit: "J/(g·K)", Ours: func() float64 { return cite.Or(HeatCapacity(unit.Celsius(280))) / 1e3 }, Published: 2.06, Allowed: 0.005, Mark: cite.Memory,
		},
		{
			ID: "resin.modulus.hoop", Case: "modulus round a wall stretched 4.3 round and 2.4 along, linear law", Source: "CommonPractice",
			Unit: "GPa", Ours: func() float64 { return modulus(4.3, 2.4) }, Published: 4.30, Allowed: 0.005, Mark: cite.Regression,
			Note: "an engineering fit, not published; the trade reckons with 4 to 5.5",
		},
		{
			ID: "resin.modulus.axial", Case: "modulus along the same wall, linear law", Source: "CommonPractice",
			Unit: "GPa", Ours: func() float64 { return modulus(2.4, 4.3) }, Published: 2.82, Allowed: 0.005, Mark: cite.Regression,
			Note: "an engineering fit, not published; the trade reckons with 2.5 to 3.5",
		},
		{
			ID: "resin.strength.hoop", Case: "ultimate strength round a wall stretched 4.3", Source: "CommonPractice",
			Unit: "MPa", Ours: func() float64 {
				_, u, _, err := DefaultStrength().At(4.3)
				return cite.Or(u, err) / 1e6
			}, Published: 185, Allowed: 15, Mark: cite.Practice,
			Note: "170 to 200 remembered",
		},
		{
			ID: "resin.iv.mn", Case: "number-average molar mass at 0.80 dL/g", Source: "PolymerHandbook1999",
			Unit: "kg/mol", Ours: func() float64 { return cite.Or(NumberMass(0.080)) }, Published: 23.3, Allowed: 0.05, Mark: cite.Memory,
		},
		{
			ID: "resin.iv.mw", Case: "weight-average molar mass at 0.80 dL/g", Source: "Berkowitz1984",
			Unit: "kg/mol", Ours: func() float64 { return cite.Or(WeightMass(0.080)) }, Published: 47.6, Allowed: 0.1, Mark: cite.Memory,
		},
		{
			ID: "resin.iv.polydispersity", Case: "Mw/Mn at 0.80 dL/g by the two laws, against 2 of a condensation polymer", Source: "PolymerHandbook1999",
			Unit: "1", Ours: func() float64 { return cite.Or(WeightMass(0.080)) / cite.Or(NumberMass(0.080)) }, Published: 2, Allowed: 0.1, Mark: cite.Independent,
			Note: "the two laws come from different work; 2 is the theory of random condensation",
		},
		{
			ID: "resin.iv.hydrolysis20", Case: "viscosity left by 20 ppm of water at 0.80 dL/g", Source: "PolymerHandbook1999",
			Unit: "dL/g", Ours: func() float64 { return 10 * cite.Or(Hydrolysis(0.080, 20e-6)) }, Published: 0.784, Allowed: 0.0006, Mark: cite.Regression,
		},
		{
			ID: "resin.iv.hydrolysis50", Case: "viscosity left by 50 ppm of water at 0.80 dL/g", Source: "PolymerHandbook1999",
			Unit: "dL/g", Ours: func() float64 { return 10 * cite.Or(Hydrolysis(0.080, 50e-6)) }, Published: 0.760, Allowed: 0.0006, Mark: cite.Regression,
		},
		{
			ID: "resin.iv.hydrolysis100", Case: "viscosity left by 100 ppm of water at 0.80 dL/g", Source: "PolymerHandbook1999",
			Unit: "dL/g", Ours: func() float64 { return 10 * cite.Or(Hydrolysis(0.080, 100e-6)) }, Published: 0.724, Allowed: 0.0006, Mark: cite.Regression,
		},
		{
			ID: "resin.birefringence.5MPa", Case: "birefringence of a stress difference of 5 MPa", Source: "StressOptical2014",
			Unit: "1", Ours: func() float64 {
				dn, _, err := Birefringence(5e6)
				return cite.Or(dn, err)
			}, Published: 0.029, Allowed: 1e-6, Mark: cite.Regression,
			Note: "coefficient published, product ours",
		},
		{
			ID: "resin.reflectance.2um", Case: "reflectance of one face at 2 µm", Source: "Zhang2020",
			Unit: "%", Ours: func() float64 {
				n, err := RefractiveIndex(2e-6)
				if err != nil {
					return math.NaN()
				}
				return percent(Reflectance(n))
			}, Published: 4.52, Allowed: 0.01, Mark: cite.Regression,
		},
	}...)
}

func modulus(own, other float64) float64 {
	E, _, err := DefaultLinear().Modulus(own, other)
	return cite.Or(E, err) / 1e9
}
