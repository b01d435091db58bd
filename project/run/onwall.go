package run

import (
	"slices"

	"costrel/project/design"
)

// Blown reports whether the wall of the result is that of the blow; otherwise it
// is the draw-down preview, or there is none.
func (r *Result) Blown() bool { return r.blown }

// RestsOnWall reports whether a figure or limit comes from a stage that reads the
// wall, itself or through others. It differs between a preview and a blown wall
// for that reason alone.
func (r *Result) RestsOnWall(key string) bool { return r.onWall[r.stageOf[key]] }

// isBlown reports whether the stages made a blown wall.
func isBlown(done map[string]*entry) bool {
	e := done["wall"]
	return e != nil && e.err == nil && e.out.(*Wall).Blown != nil
}

// onWall returns the stages of a design that read the wall: those that need it,
// may read it, or need one that does.
func onWall(d *design.Design, w work) map[string]bool {
	out := map[string]bool{"wall": true}
	for _, s := range stages {
		reads := slices.Concat(s.needs, s.soft)
		if w.full {
			reads = append(reads, s.extra...)
		}
		if s.also != nil {
			reads = append(reads, s.also(d, w)...)
		}
		if slices.ContainsFunc(reads, func(name string) bool { return out[name] }) {
			out[s.name] = true
		}
	}
	return out
}
