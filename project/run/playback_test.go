package run

import (
	"math"
	"testing"

	"costrel/physics/blow"
)

// TestPlaybackEnds holds the playback to the whole of the traces: on the same
// span, thinned, and with the last moment of them.
func TestPlaybackEnds(t *testing.T) {
	r := &blow.Result{Filled: true, FillTime: 0.2, End: 1}
	for i := range 1001 {
		at := float64(i) * 1e-3
		r.History = append(r.History, blow.Moment{Time: at, Pressure: 3e6 * at})
	}
	for i := range 300 {
		at := float64(i) * 3.3e-3
		r.Frames = append(r.Frames, blow.Frame{Time: at, Pressure: 3e6 * at, Z: []float64{at}, R: []float64{1}, Wall: []float64{1 - at}})
	}
	p := playback(map[string]*entry{"blow": {out: &Blown{Result: r}}, "bottle": {err: errSkip}})
	end, moved := p.Frames[len(p.Frames)-1], p.Rod[len(p.Rod)-1]
	if math.Abs(end.Time-0.32) > 1e-9 || moved.Time != end.Time || math.Abs(end.Pressure/(3e6*0.32)-1) > 1e-9 || math.Abs(end.Wall[0]-0.68) > 1e-9 {
		t.Errorf("the playback ends at %g s, %g Pa, wall %v; rod %g s", end.Time, end.Pressure, end.Wall, moved.Time)
	}
	if len(p.Frames) > framesShown+1 {
		t.Errorf("%d frames", len(p.Frames))
	}
	for i := 1; i < len(p.Frames); i++ {
		if p.Frames[i].Time <= p.Frames[i-1].Time {
			t.Fatalf("frame %d at %g s is not behind the one before", i, p.Frames[i].Time)
		}
	}
}
