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
	_, err := bottle.New(d.Shape())
	if err == nil {
		return
	}
	given := doc.Marks["bottle.profile"].Kind == figure.Given
	for _, line := range strings.Split(err.Error(), "\n") {
		message, remedy := plainly(line)
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
			add(path, remedy, "%s", message)
		}
	}
}

var rowName = regexp.MustCompile(`^row (\d+):`)

// plainly takes the names of packages off an error, and parts what is wrong
// from what to do.
func plainly(line string) (message, remedy string) {
	for {
		word, rest, ok := strings.Cut(line, ": ")
		switch {
		case ok && (word == "bottle" || word == "profile" || word == "curve" || word == "base"):
			line = rest
			continue
		}
		break
	}
	i := strings.LastIndex(line, ": ")
	if i < 0 || strings.HasPrefix(line, "row ") && strings.Count(line, ": ") == 1 {
		return line, ""
	}
	return line[:i], "to " + line[i+2:]
}
