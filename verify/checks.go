package verify

import (
	"costrel/cite"
	"costrel/physics/base"
	"costrel/physics/blow"
	"costrel/physics/bottle"
	"costrel/physics/capping"
	"costrel/physics/climate"
	"costrel/physics/closure"
	"costrel/physics/drawdown"
	"costrel/physics/drink"
	"costrel/physics/finish"
	"costrel/physics/hotfill"
	"costrel/physics/impact"
	"costrel/physics/inject"
	"costrel/physics/oven"
	"costrel/physics/permeation"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/physics/shell"
	"costrel/plant/air"
	"costrel/plant/cost"
	"costrel/plant/energy"
	"costrel/plant/footprint"
	"costrel/plant/pallet"
	"costrel/quality"
	"costrel/quality/aql"
	"costrel/quality/lab"
	"costrel/quality/plan"
	"costrel/quality/stat"
)

// Checks returns the checks of every package.
func Checks() []cite.Check {
	var out []cite.Check
	for _, of := range []func() []cite.Check{
		cite.UnitChecks, drink.Checks, resin.Checks, finish.Checks, closure.Checks, capping.Checks, climate.Checks, bottle.Checks,
		preform.Checks, drawdown.Checks, hotfill.Checks, permeation.Checks, air.Checks, energy.Checks, cost.Checks, footprint.Checks, pallet.Checks, quality.Checks,
		stat.Checks, aql.Checks, lab.Checks, plan.Checks,
		oven.Checks, inject.Checks, blow.Checks, shell.Checks, impact.Checks, base.Checks,
	} {
		out = append(out, of()...)
	}
	return out
}
