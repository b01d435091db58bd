package run

import (
	"sort"

	"costrel/physics/blow"
)

// Playback is the blow for the eye: the wall at times, mid-line and thickness
// at nodes from the gate to the ledge, depth below the ledge [m].
type Playback struct {
	Frames []Frame `json:"frames"`
	Mould  Outline `json:"mould"`
	Rod    []Rod   `json:"rod"`
}

// Frame is the wall at one time.
type Frame struct {
	Time     float64 `json:"time"`     // s, from rod contact
	Pressure float64 `json:"pressure"` // Pa(g)
	Z        Numbers `json:"z"`
	R        Numbers `json:"r"`
	Wall     Numbers `json:"wall"`
}

// Outline is a curve of the meridian plane.
type Outline struct {
	Z Numbers `json:"z"`
	R Numbers `json:"r"`
}

// Rod is the tip of the stretch rod at a time.
type Rod struct {
	Time float64 `json:"time"`
	Tip  float64 `json:"tip"` // depth below the ledge [m]
}

// framesShown is the most frames of a playback.
const framesShown = 80

// traced is how long the blow is shown, by traces and playback alike: until
// the pressure has settled on the filled mould [s].
func traced(r *blow.Result) float64 {
	if r.Filled {
		return 1.6 * r.FillTime
	}
	return r.End
}

// lastMoment returns the moment of a history that is the last one up to an end.
func lastMoment(h []blow.Moment, end float64) blow.Moment {
	i := sort.Search(len(h), func(i int) bool { return h[i].Time > end })
	return h[max(i-1, 0)]
}

// frameBetween returns the wall at a moment between two frames, by straight lines.
func frameBetween(a, b blow.Frame, m blow.Moment) blow.Frame {
	share := (m.Time - a.Time) / (b.Time - a.Time)
	mix := func(p, q []float64) []float64 {
		out := make([]float64, len(p))
		for i := range p {
			out[i] = p[i] + share*(q[i]-p[i])
		}
		return out
	}
	return blow.Frame{Time: m.Time, Pressure: m.Pressure, Z: mix(a.Z, b.Z), R: mix(a.R, b.R), Wall: mix(a.Wall, b.Wall)}
}

// playback returns the frames of the blow as far as its traces go.
func playback(done map[string]*entry) *Playback {
	e := done["blow"]
	if e == nil || e.err != nil {
		return nil
	}
	b := e.out.(*Blown)
	r := b.Result
	end := traced(r)
	frames := r.Frames
	n := 0
	for n < len(frames) && frames[n].Time <= end {
		n++
	}
	shown := frames[:n:n]
	if n > 0 && n < len(frames) { // the traces end between two frames
		shown = append(shown, frameBetween(frames[n-1], frames[n], lastMoment(r.History, end)))
	}
	frames = shown
	step := max(1, (len(frames)+framesShown-1)/framesShown)
	p := &Playback{Frames: []Frame{}, Rod: []Rod{}}
	for i := 0; i < len(frames); i += step {
		if i+step >= len(frames) {
			i = len(frames) - 1
		}
		f := frames[i]
		p.Frames = append(p.Frames, Frame{Time: f.Time, Pressure: f.Pressure, Z: f.Z, R: f.R, Wall: f.Wall})
	}
	for _, m := range r.History {
		if m.Time > end {
			break
		}
		p.Rod = append(p.Rod, Rod{Time: m.Time, Tip: m.RodTip})
	}
	if s := done["bottle"]; s.err == nil {
		shape := s.out.(*Shape)
		if st, err := shape.Bottle.Stations(161); err == nil {
			for i := range st.Z {
				p.Mould.Z = append(p.Mould.Z, shape.Bottle.LedgeZ()-st.Z[i])
				p.Mould.R = append(p.Mould.R, st.R[i])
			}
		}
	}
	return p
}
