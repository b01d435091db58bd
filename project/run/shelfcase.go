package run

import (
	"context"

	"costrel/physics/permeation"
	"costrel/project/design"
)

// ShelfCase returns the pack of a design before it is filled, for calibration:
// with the wall of the blow when full, else of the preview.
func ShelfCase(ctx context.Context, d *design.Design, full bool, cache *Cache) (permeation.Case, error) {
	w := work{ctx: ctx, full: full, until: "wall"}
	done := evaluate(d, w, cache)
	if err := ctx.Err(); err != nil {
		return permeation.Case{}, err
	}
	for _, name := range []string{"bottle", "preform", "wall"} {
		if e := done[name]; e.err != nil {
			return permeation.Case{}, e.err
		}
	}
	c, _, err := shelfCase(&pass{d: d, name: "shelf", work: w, done: done})
	return c, err
}
