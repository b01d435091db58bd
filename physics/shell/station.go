package shell

import (
	"fmt"
	"math"
)

// Face names a face of the wall on which pressure acts.
type Face int

// The faces. Pressure in a bottle acts inside; closed forms of thin shells
// know the middle only.
const (
	Inner Face = iota
	Mid
	Outer
)

// side is the place of the face in half walls along the outward normal.
func (f Face) side() float64 { return float64(f) - 1 }

// Station is a place of the profile, from the gate (or the lower rim) to the
// top. Z runs up the axis, R is the radius.
type Station struct {
	Z, R float64 // of the outer face, unless [Sizing] says otherwise [m]
	Wall float64 // thickness along the normal [m]
	Ply  Layers
}

// checkStations refuses what is no profile.
func checkStations(st []Station) error {
	if len(st) < 2 {
		return fmt.Errorf("shell: profile: %d stations, at least 2", len(st))
	}
	for i, q := range st {
		where := fmt.Sprintf("profile: station %d (z ‹%.2f mm›, r ‹%.2f mm›)", i+1, q.Z*1e3, q.R*1e3)
		switch {
		case math.IsNaN(q.Z+q.R) || math.IsInf(q.Z+q.R, 0):
			return fmt.Errorf("shell: profile: station %d: height %g or radius %g is no number", i+1, q.Z, q.R)
		case math.IsNaN(q.Wall):
			return fmt.Errorf("shell: %s: no wall there: the wall table has a gap", where)
		case !(q.Wall > 0):
			return fmt.Errorf("shell: %s: wall ‹%.4g mm›, must be above 0", where, q.Wall*1e3)
		case q.Wall < 1e-6 || q.Wall > 0.05:
			return fmt.Errorf("shell: %s: wall ‹%.4g mm› outside ‹0.001..50 mm›", where, q.Wall*1e3)
		case q.R < -1e-9:
			return fmt.Errorf("shell: %s: radius below 0: the profile crosses the axis", where)
		case q.R > 2 || math.Abs(q.Z) > 10:
			return fmt.Errorf("shell: %s: outside ‹2 m› radius and ‹10 m› height: are the units metres?", where)
		}
		for _, p := range q.Ply {
			if err := p.check(where); err != nil {
				return err
			}
		}
		if i > 0 {
			if d := math.Hypot(q.Z-st[i-1].Z, q.R-st[i-1].R); d < 1e-7 {
				return fmt.Errorf("shell: %s: stands on the station before it", where)
			}
			if q.R < 1e-7 && i != len(st)-1 {
				return fmt.Errorf("shell: %s: on the axis in the middle of the profile", where)
			}
		}
	}
	return nil
}

// WallAt returns stations of the profile z, r [m] with the wall of a table by
// arc length [m] along the same profile. The table must rise and reach from
// the first to the last place within 1 % of the length: a wall is not made up
// beyond what was measured or computed.
func WallAt(z, r, s, wall []float64, ply Layers) ([]Station, error) {
	if len(z) != len(r) || len(s) != len(wall) || len(s) < 2 || len(z) < 2 {
		return nil, fmt.Errorf("shell: wall: profile of %d and %d values, table of %d and %d", len(z), len(r), len(s), len(wall))
	}
	out := make([]Station, len(z))
	at := make([]float64, len(z))
	for i := range z {
		if i > 0 {
			at[i] = at[i-1] + math.Hypot(z[i]-z[i-1], r[i]-r[i-1])
		}
	}
	length := at[len(at)-1]
	for i := 1; i < len(s); i++ {
		if !(s[i] > s[i-1]) {
			return nil, fmt.Errorf("shell: wall: row %d at ‹%.2f mm› does not rise above ‹%.2f mm›", i+1, s[i]*1e3, s[i-1]*1e3)
		}
	}
	if s[0] > 0.01*length || s[len(s)-1] < 0.99*length {
		return nil, fmt.Errorf("shell: wall: gap: the table reaches from ‹%.2f to %.2f mm›, the profile from ‹0 to %.2f mm›", s[0]*1e3, s[len(s)-1]*1e3, length*1e3)
	}
	k := 0
	for i := range z {
		for k < len(s)-2 && s[k+1] < at[i] {
			k++
		}
		x := (at[i] - s[k]) / (s[k+1] - s[k])
		x = math.Min(1, math.Max(0, x))
		out[i] = Station{Z: z[i], R: r[i], Wall: wall[k] + x*(wall[k+1]-wall[k]), Ply: ply}
	}
	return out, nil
}
