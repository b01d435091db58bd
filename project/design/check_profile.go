package design

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"costrel/figure"
	"costrel/physics/bottle"
)

// checkProfile reports a profile that is no bottle: one that folds, crosses
// itself, leaves no room for its wall or does not fit the finish. What the
// shape alone cannot decide, such as a fill that does not fit, is left to the
// board.
func (doc *Document) checkProfile(add faultFunc) {
	d := doc.Design
	for _, p := range d.Bottle.Profile {
		if _, _, err := Via(p.Via); err != nil {
			return // told already
		}
	}
	if d.Finish.Bore == 0 || d.Finish.Height == 0 || len(d.Bottle.Planes) != 2 || d.Bottle.Planes[1] <= d.Bottle.Planes[0] {
		return // told already
	}
	// Feet and ribs cost time and do not decide whether the outline is sound.
	smooth := d.Shape()
	smooth.Base.Count = 0
	if k := &smooth.Base.Kind; *k == bottle.Petaloid || *k == bottle.Ribbed {
		*k = bottle.Punt
	}
	if _, err := bottle.New(smooth); err == nil {
		return
	}
	full := d.Shape()
	if full.Base.Count < 3 {
		full.Base.Count = 0 // told already
	}
	_, err := bottle.New(full)
	if err == nil {
		return
	}
	given := doc.Marks["bottle.profile"].Kind == figure.Given
	for _, line := range strings.Split(err.Error(), "\n") {
		message := plainly(line)
		switch {
		case strings.HasPrefix(message, "cut plane "):
			add("bottle.planes", "rising heights between the standing plane and the ledge", "%s", message)
		case !given:
			add("bottle", "dimensions that leave room for base, panel and shoulder", "the profile drawn from the main dimensions is no bottle: %s", message)
		default:
			path := "bottle.profile"
			if m := rowName.FindStringSubmatch(message); m != nil {
				if n, _ := strconv.Atoi(m[1]); n >= 1 && n <= len(d.Bottle.Profile) {
					path = fmt.Sprintf("bottle.profile[%d].z", n-1)
				}
			}
			add(path, "", "%s", message)
		}
	}
}

var rowName = regexp.MustCompile(`^row (\d+):`)

// plainly takes the names of packages off an error.
func plainly(line string) string {
	for {
		word, rest, ok := strings.Cut(line, ": ")
		if !ok || indexOf([]string{"bottle", "profile", "curve", "base"}, word) < 0 {
			return line
		}
		line = rest
	}
}
