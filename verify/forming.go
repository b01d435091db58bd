package verify

import "fmt"

// Forming returns the list of checks of making the bottle: hot law, blow, oven,
// moulding and air, V1 to V32. Every id is that of a check; a test walks the
// list and fails on a gap.
func Forming() []Item {
	list := []struct {
		what string
		ids  []string
	}{
		{"locking stretches of the network", []string{"resin.hot.lock.biaxial", "resin.hot.lock.width", "resin.hot.lock.uniaxial"}},
		{"viscosities and critical stretches, 85 to 115 °C", each("resin.hot.%s.%sC", []string{"viscosity", "slip1", "slip8", "critical1", "critical8", "critical32"}, "85", "95", "105", "115")},
		{"slow flow", []string{"resin.hot.newton.biaxial", "resin.hot.newton.uniaxial"}},
		{"instant stretch", []string{"resin.hot.glass.uniaxial", "resin.hot.glass.biaxial"}},
		{"equal-biaxial curves", []string{
			"resin.hot.biaxial.90C.1.3.0", "resin.hot.biaxial.90C.32.2.0", "resin.hot.biaxial.95C.8.1.5", "resin.hot.biaxial.95C.8.3.0", "resin.hot.biaxial.100C.1.2.5",
			"resin.hot.biaxial.100C.8.3.0", "resin.hot.biaxial.100C.32.3.5", "resin.hot.biaxial.105C.1.2.0", "resin.hot.biaxial.105C.32.3.0",
		}},
		{"thick rubber tube", []string{"blow.tube.12", "blow.tube.20", "blow.tube.32"}},
		{"rubber balloon", []string{"blow.sphere.peak", "blow.sphere.stretch"}},
		{"thin rubber tube", []string{"blow.tube.thin"}},
		{"choked orifice", []string{"blow.orifice.critical", "blow.orifice.choked"}},
		{"filling a rigid vessel", []string{"blow.vessel.rise", "blow.vessel.adiabatic"}},
		{"air balance of a blow", []string{"blow.air.closure", "blow.air.mass"}},
		{"mass and volume of the wall", []string{"blow.wall.mass", "blow.wall.volume"}},
		{"conduction through the wall", []string{"blow.conduction.mode", "oven.conduction.tau"}},
		{"cooling of the preform, series against finite volumes", []string{"inject.cool.3mm.mean75", "inject.cool.simulated"}},
		{"Planck fractions", []string{"oven.planck.2400", "oven.planck.sum", "oven.boltzmann"}},
		{"absorption of a 3 mm wall", []string{"oven.absorbed.2400K.3mm", "oven.absorbed.2000K.3mm", "oven.absorbed.2400K.3mm.cut"}},
		{"energy of the oven", []string{"oven.energy.closes", "oven.energy.light", "oven.energy.20to105C"}},
		{"free stretch-blow", append(each("blow.free.%sC.%s", []string{"95", "100", "105", "110"}, "peak"), each("blow.free.%sC.%s", []string{"95", "100", "105", "110"}, "volume")...)},
		{"flow and temperature of a free blow", each("blow.flow9.%sC%s", []string{"95", "100", "105", "110"}, "")},
		{"wall of a moulded bottle", each("blow.mould.%s%s", []string{"30", "60", "90", "120", "150", "180"}, "")},
		{"what makes the base thin", []string{"blow.base.hot", "blow.base.early", "blow.base.strong", "blow.base.slow"}},
		{"inside stretched more than outside", []string{"blow.cakmak"}},
		{"where the network stiffens", each("resin.hot.stiffening.%sC.%s", []string{"85", "90", "95"}, "biaxial", "width")},
		{"stress and birefringence", []string{"blow.optical", "resin.birefringence.5MPa"}},
		{"acetaldehyde", []string{"inject.aldehyde.280C", "inject.aldehyde.ratio", "inject.aldehyde.cross"}},
		{"hydrolysis", []string{"inject.iv.50ppm", "resin.iv.hydrolysis50"}},
		{"crystallinity from density", []string{"resin.crystallinity.laboratory", "resin.density.mass45"}},
		{"compression of air", []string{"air.isothermal.kg", "air.stages3.kg", "air.stages3.41bar.20C"}},
		{"dead volume of a printed example", []string{"air.dead.gauge", "air.dead.gauge.divided"}},
		{"size of a preform by the rule", []string{"inject.size.length", "inject.size.diameter", "inject.size.wall"}},
		{"other solvers: finite elements, Runge-Kutta", []string{"blow.ccx.tube.10", "blow.ccx.tube.12", "blow.ccx.tube.19", "resin.hot.rungekutta.95C.33", "resin.hot.rungekutta.100C.9", "resin.hot.rungekutta.100C.32", "resin.hot.rungekutta.105C.8"}},
		{"crystallisation from the glass", []string{"resin.quiescent.half.110C", "resin.quiescent.half.140C", "resin.quiescent.fastest", "resin.quiescent.peak"}},
	}
	out := make([]Item, len(list))
	for i, r := range list {
		out[i] = Item{i + 1, r.what, r.ids}
	}
	return out
}

// each puts every pair of a and b into the format.
func each(format string, a []string, b ...string) []string {
	var out []string
	for _, x := range a {
		for _, y := range b {
			out = append(out, fmt.Sprintf(format, x, y))
		}
	}
	return out
}
