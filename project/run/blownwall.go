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
// weights between the cut planes and the bottle. It fails where the blow fails: a
// preview is no answer here.
func BlownWall(ctx context.Context, d *design.Design, cache *Cache) (*Wall, *Sections, *Shape, error) {
	done := evaluate(d, work{ctx: ctx, full: true, until: sectionStage.name}, cache)
	if err := ctx.Err(); err != nil {
		return nil, nil, nil, err
	}
	for _, name := range []string{"bottle", "preform", "reheat", "blow", "wall", "section"} {
		if e := done[name]; e.err != nil {
			return nil, nil, nil, e.err
		}
	}
	w := done["wall"].out.(*Wall)
	if w.Blown == nil {
		why := "blow.free asks for no bottle"
		if !d.Blow.Free {
			why = unformed(done["blow"].out.(*Blown).Result)
		}
		return nil, nil, nil, fmt.Errorf("the blow gave no wall: %s", why)
	}
	return w, done["section"].out.(*Sections), done["bottle"].out.(*Shape), nil
}

// coarseBlow is a coarse blow, a seventh of the work of a whole one.
type coarseBlow struct {
	done   map[string]*entry // the stages before it
	pre    *Preform
	c      blow.Case
	result *blow.Result
}

// blowCoarse runs a design as far as a coarse blow of a bottle.
func blowCoarse(ctx context.Context, d *design.Design, shape *Shape) (*coarseBlow, error) {
	out := &coarseBlow{done: evaluate(d, work{ctx: ctx, full: true, until: "reheat"}, nil)}
	for _, name := range []string{"preform", "reheat"} {
		if err := out.done[name].err; err != nil {
			return nil, err
		}
	}
	out.pre = out.done["preform"].out.(*Preform)
	var err error
	if out.c, err = blowCase(d, shape, out.pre.Body, out.done["reheat"].out.(*Reheated)); err != nil {
		return nil, err
	}
	coarse(&out.c.Numbers)
	out.result, err = blow.Run(ctx, out.c, nil)
	return out, err
}

// QuickWall is the blown wall of a coarse blow for a search, and its weights: at
// the stations and of the bottle of a wall that was blown before. Only what the
// oven and the blow read may differ from the design of that one.
func QuickWall(ctx context.Context, d *design.Design, like *Wall, shape *Shape) (*Wall, *Sections, error) {
	b, err := blowCoarse(ctx, d, shape)
	if err != nil {
		return nil, nil, err
	}
	if why := unformed(b.result); why != "" {
		return nil, nil, errors.New(why)
	}
	w := &Wall{S: like.S, Real: like.Real, Parts: like.Parts, Blown: blown(d, shape, b.result)}
	if w.T, w.Planar, err = blownWall(d, shape, b.pre.Mass, w.S, w.Blown); err != nil {
		return nil, nil, err
	}
	w.Along = curve.Wall{S: w.S, T: w.T}
	out := &Sections{Planes: shape.cut(d)}
	_, err = w.weigh(d, shape, out)
	return w, out, err
}
