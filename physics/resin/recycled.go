package resin

import (
	"fmt"

	"costrel/unit"
)

// Finding is one published statement about recycled PET, with its source.
type Finding struct {
	Text   string
	Source string // key in cite
}

// RecycledFindings returns what is published about the effect of a recycled
// share and is firm enough to plan with. No law of haze or colour against the
// share is among them: the two statements that were found say that the origin
// of the flake outweighs its share, so costrel computes neither and asks for
// the lot's own values.
func RecycledFindings() []Finding {
	return []Finding{
		{"Haze rises in proportion to the particle contamination of the recycled resin (r² 0.96); the origin of the recyclate matters more than its share.", "AlvaradoChacon2020"},
		{"Yellowing and haze rise with the share; hot-fill bottles stayed within specification, with shrinkage rising a little above a share of one half.", "PETplanet201611"},
	}
}

// RecycledWarnings returns the warnings that belong to a recycled share
// (mass fraction in 0..1) of a resin whose preform viscosity was given or
// computed. minimum is the lowest intrinsic viscosity wanted [m³/kg].
func RecycledWarnings(share, iv, minimum float64) ([]string, error) {
	if !(share >= 0 && share <= 1) {
		return nil, fmt.Errorf("resin: recycled share %g outside 0..1", share)
	}
	var out []string
	if share > 0 {
		out = append(out,
			fmt.Sprintf("recycled share %.0f %%: colour and haze are not computed; the flake's origin matters more than its share, use the lot's values", share*100),
			"recycled PET in contact with food is a matter of law: ask for the supplier's declaration and migration tests; a prediction is not compliance")
	}
	if share > 0.5 {
		out = append(out, fmt.Sprintf("recycled share %.0f %% above 50 %%: hot-fill shrinkage was seen to rise a little", share*100))
	}
	if iv < minimum {
		out = append(out, "intrinsic viscosity "+unit.Format(unit.IntrinsicViscosity, iv, "dL/g", 3)+" below the wanted "+unit.Format(unit.IntrinsicViscosity, minimum, "dL/g", 3))
	}
	return out, nil
}
