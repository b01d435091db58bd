package run

import (
	"context"
	"errors"

	"costrel/project/design"
)

// BlownWall runs a design as far as its blown wall and returns it with the
// bottle. It fails where the blow fails: a preview is no answer here.
func BlownWall(ctx context.Context, d *design.Design, cache *Cache) (*Wall, *Shape, error) {
	done := evaluate(d, work{ctx: ctx, full: true, until: "wall"}, cache)
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	for _, name := range []string{"bottle", "preform", "reheat", "blow", "wall"} {
		if e := done[name]; e.err != nil {
			return nil, nil, e.err
		}
	}
	w := done["wall"].out.(*Wall)
	if w.Blown == nil {
		return nil, nil, errors.New("the blow gave no wall")
	}
	return w, done["bottle"].out.(*Shape), nil
}
