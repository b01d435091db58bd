package run

import (
	"costrel/num/curve"
	"costrel/project/design"
)

// row returns a point of the profile as the geometry wants it. The document
// was checked, so the way of drawing is readable.
func row(p design.ProfileRow) curve.Row {
	word, radius, err := design.Via(p.Via)
	if err != nil {
		word = "line"
	}
	return curve.Row{Z: p.Z, R: p.R, Via: curve.Via(word), Radius: radius}
}
