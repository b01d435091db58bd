package design

import (
	"fmt"

	"costrel/unit"
)

// blowable are the nominal volumes [m³] from which to which a draft of a pack
// class, its recipe as the template has it, blows to a bottle. Found with drafts of
// a dozen volumes from 0.1 to 5 L a class: at the ends named they fill their mould,
// at the next beyond they do not, or none was tried.
var blowable = map[string][2]float64{
	"csd-500": {0.15e-3, 3e-3}, "csd-1500": {0.33e-3, 3e-3}, "csd-2000": {0.4e-3, 2.5e-3},
	"still-500": {0.15e-3, 3e-3}, "hotfill-500": {0.1e-3, 4e-3}, "returnable-1000": {0.5e-3, 4e-3},
}

// DraftWarning says that a draft of a pack class with a nominal volume [m³] may
// not blow, and nothing where it does.
func DraftWarning(class string, nominal float64) string {
	r, ok := blowable[class]
	if !ok || nominal >= r[0]*(1-1e-9) && nominal <= r[1]*(1+1e-9) {
		return ""
	}
	L := func(v float64) string { return unit.Format(unit.Volume, v, "L", 3) }
	return fmt.Sprintf("drafts of %s blow from %s to %s; at %s preform and recipe of the class may not fill the mould: see costrel check --stage blow, and set preform, pressures and orifices, or take another class", class, L(r[0]), L(r[1]), L(nominal))
}
