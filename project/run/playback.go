package run

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

// playback returns the frames of the blow as far as the wall moves.
func playback(done map[string]*entry) *Playback {
	e := done["blow"]
	if e == nil || e.err != nil {
		return nil
	}
	b := e.out.(*Blown)
	r := b.Result
	end := r.End
	if r.Filled {
		end = 1.1 * r.FillTime
	}
	frames := r.Frames
	n := 0
	for n < len(frames) && frames[n].Time <= end {
		n++
	}
	frames = frames[:n]
	step := max(1, (len(frames)+framesShown-1)/framesShown)
	p := &Playback{Frames: []Frame{}, Rod: []Rod{}}
	for i := 0; i < len(frames); i += step {
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
