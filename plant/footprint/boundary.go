package footprint

import "strings"

// boundary says in words what a sheet counts. A stage whose quantity is zero
// is named as left out, so that an empty field never looks like a good result.
func boundary(q Quantities) string {
	counted := []string{"PET resin from cradle to gate"}
	left := []string{
		"the drink", "filling", "secondary packaging and pallets", "transport", "storage and chilling",
		"machines and buildings", "collection and recycling after use",
	}
	for _, s := range []struct {
		name string
		on   bool
	}{
		{"electricity of drying and preform moulding", q.Moulding > 0},
		{"electricity of blowing", q.Blowing > 0},
		{"closure material", q.Closure > 0},
		{"label material", q.Label > 0},
	} {
		if s.on {
			counted = append(counted, s.name)
		} else {
			left = append(left, s.name)
		}
	}
	counted = append(counted, "scrap of the bottle hall")
	return "Counted: " + strings.Join(counted, ", ") + ". Not counted: " + strings.Join(left, ", ") +
		". Recycled resin by cut-off: it carries the burden of recycling only, and no credit is given for recycling after use." +
		" Greenhouse gas only, 100 years. Not a life cycle assessment after ISO 14040 and no basis for a public claim."
}
