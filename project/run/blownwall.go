package run

import (
	"context"
	"errors"
	"fmt"

	"costrel/num/curve"
	"costrel/physics/blow"
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

// QuickWall is the blown wall of a coarse blow, a seventh of the work, for a search:
// at the stations and of the bottle of a wall that was blown before. Only what the
// oven and the blow read may differ from the design of that one.
func QuickWall(ctx context.Context, d *design.Design, like *Wall, shape *Shape) (*Wall, error) {
	done := evaluate(d, work{ctx: ctx, full: true, until: "reheat"}, nil)
	for _, name := range []string{"preform", "reheat"} {
		if err := done[name].err; err != nil {
			return nil, err
		}
	}
	pre := done["preform"].out.(*Preform)
	bc, err := blowCase(d, shape, pre.Body, done["reheat"].out.(*Reheated))
	if err != nil {
		return nil, err
	}
	coarse(&bc.Numbers)
	r, err := blow.Run(ctx, bc, nil)
	if err != nil {
		return nil, err
	}
	if why := unformed(r); why != "" {
		return nil, errors.New(why)
	}
	w := &Wall{S: like.S, Real: like.Real, Blown: blown(d, shape, r)}
	if w.T, w.Planar, err = blownWall(d, shape, pre.Mass, w.S, w.Blown); err != nil {
		return nil, err
	}
	w.Along = curve.Wall{S: w.S, T: w.T}
	sections, err := shape.Bottle.Sections(w.Along, d.Resin.DensityWall, d.Finish.Mass, shape.Planes)
	if err != nil {
		return nil, err
	}
	for _, q := range sections {
		w.Zones = append(w.Zones, Zone{Name: q.Name, From: q.Z0, To: q.Z1, Grams: q.Mass * 1e3})
	}
	return w, nil
}
