package verify

import (
	"slices"
	"testing"
)

// structureRows maps each row of the list of checks of structure, and each case
// solved with CalculiX, to the checks that show it. Rows 22 and 32 do not exist.
var structureRows = []struct {
	row string
	ids []string
}{
	{"1 hoop and meridional stress of the capsule", []string{"shell.a.hoop", "shell.a.along", "shell.a.closed.hoop", "shell.a.closed.along"}},
	{"2 largest meridional stress", []string{"shell.a.along.max"}},
	{"3 radial displacement", []string{"shell.a.radial"}},
	{"4 axial displacement of the pole", []string{"shell.a.pole"}},
	{"5 junction and largest hoop", []string{"shell.a.junction", "shell.a.junction.hoop", "shell.a.hoop.max"}},
	{"6 factors of edge bending", []string{"shell.edge.along.30", "shell.edge.along.38", "shell.edge.round.30", "shell.edge.round.38"}},
	{"7 NAFEMS LE7", []string{"shell.le7", "shell.le7.inner"}},
	{"8 ring load", []string{"shell.ring.load"}},
	{"9 thick sphere of rubber", []string{"shell.rubber.sphere", "shell.rubber.sphere.1", "shell.rubber.sphere.2"}},
	{"10 tube of rubber", []string{"shell.rubber.tube.0", "shell.rubber.tube.1", "shell.rubber.tube.2", "shell.rubber.tube.3"}},
	{"11 limit of a thin sphere of rubber", []string{"shell.rubber.balloon", "shell.rubber.balloon.stretch"}},
	{"12 axial load, ends free along", []string{"shell.d.simple", "shell.d.closed", "shell.d.element"}},
	{"13 axial load, one end on a plate", []string{"shell.d.plate", "shell.d.plate.regression"}},
	{"14 classical axial load", []string{"shell.axial.classical", "shell.axial.stress"}},
	{"15 hydrostatic pressure, live and dead", []string{"shell.e.hydro.live", "shell.e.hydro.dead", "shell.e.hydro.ccx", "shell.e.closed.hydro.live", "shell.e.closed.hydro.dead", "shell.e.plate"}},
	{"16 lateral pressure, live and dead", []string{"shell.e.lateral.live", "shell.e.lateral.dead", "shell.e.lateral.ccx", "shell.e.closed.lateral.live", "shell.e.closed.lateral.dead"}},
	{"17 ring, live and dead, two and three waves", []string{"shell.x1.live", "shell.x1.dead", "shell.x1.live.3", "shell.x1.dead.3"}},
	{"18 sphere, formula and element", []string{"shell.zoelly", "shell.x2"}},
	{"19 bottle under pressure", []string{"shell.f1.top", "shell.f1.along", "shell.f1.hoop", "shell.f1.cylinder", "shell.f1.shoulder", "shell.f1.pole", "shell.f1.nonlinear.along"}},
	{"20 bottle under top load", []string{"shell.f2.top", "shell.f2.hoop", "shell.f2.along", "shell.f2.cylinder"}},
	{"21 buckling of the bottle", []string{"shell.f5"}},
	{"23 knock-down and Roark 19a", []string{"shell.knockdown.108", "shell.roark.19a"}},
	{"24 Korteweg and Joukowsky", []string{"impact.wave.halflitre", "impact.hammer.halflitre", "impact.hoop.halflitre", "impact.wave.twolitre", "impact.hammer.twolitre"}},
	{"25 clamped panel", []string{"shell.panel.circular", "shell.panel.middle"}},
	{"26 contraction of water", []string{"drink.contraction.hand.85C"}},
	{"27 torque over force", []string{"capping.torque.application", "capping.torque.removal"}},
	{"28 lift-off", []string{"capping.lift.690kPa.21.74mm"}},
	{"29 Weibull", []string{"stat.weibull.beta", "stat.weibull.eta"}},
	{"30 tolerance factors", []string{"stat.k1.12.95.95", "stat.k1.24.95.95", "stat.k1.nist.exact", "stat.k2.nist.exact"}},
	{"31 gauge study", []string{"stat.gauge.grr", "stat.gauge.ndc"}},
	{"33 sampling plans", []string{"aql.plan.5000.II.0.65.n", "aql.plan.10000.II.1.n", "aql.plan.200.II.2.5.n", "aql.plan.500.I.0.1.n", "aql.oc.200.5"}},
	{"34 samples without failure", []string{"stat.zero.95.95"}},
	{"35 bounds of capability", []string{"stat.cpk.1.33.30"}},
	{"thick cylinder in steady creep", []string{"shell.creep.thick", "shell.creep.thin"}},
	{"burst by instability of a thin cylinder", []string{"shell.burst.instability", "shell.burst.plastic"}},
	{"von Mises, Windenburg and Trilling", []string{"shell.mises.4", "shell.mises.5", "shell.mises.6", "shell.windenburg", "shell.lateral.sp8007"}},
}

// TestStructureList walks the list: a row without its checks, or whose check
// fails, is named.
func TestStructureList(t *testing.T) {
	var rows []Row
	for _, prefix := range []string{"shell.", "impact.", "drink.contraction.", "capping.", "stat.", "aql."} {
		rows = append(rows, Run(prefix)...)
	}
	for _, r := range structureRows {
		for _, id := range r.ids {
			i := slices.IndexFunc(rows, func(q Row) bool { return q.ID == id })
			if i < 0 {
				t.Errorf("%s: no check %s", r.row, id)
			} else if !rows[i].OK {
				t.Errorf("%s: %s: %+v", r.row, id, rows[i])
			}
		}
	}
}
