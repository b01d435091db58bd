package run

import (
	"context"
	"fmt"

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
		why := "blow.free asks for no bottle"
		if !d.Blow.Free {
			why = unformed(done["blow"].out.(*Blown).Result)
		}
		return nil, nil, fmt.Errorf("the blow gave no wall: %s", why)
	}
	return w, done["bottle"].out.(*Shape), nil
}
