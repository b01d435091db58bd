package design

import "strings"

// MovePlanes is [Set] for bottle.planes or one of them. Where the document does not
// say at which planes base, panel and shoulder part, those before the move are
// written down: where a bottle is cut to be weighed does not move its plastic.
func MovePlanes(text, path, value string) (string, error) {
	out, err := Set(text, path, value)
	if err != nil {
		return "", err
	}
	at, held := partsHeld(text)
	if held == nil {
		return out, nil
	}
	rows := at[strings.LastIndex(at, ".")+1:] + " mm" // the head of the column
	for _, z := range held {
		rows += "\n" + digits(z*1e3, 7)
	}
	return Set(out, at, rows)
}

// partsHeld gives the planes (m) of the bottle at which its sections part and where
// to write them; nil when text says where they do or is no design yet.
func partsHeld(text string) (at string, planes []float64) {
	d, err := Load("", text)
	if err != nil || len(d.Design.Bottle.Parts) > 0 {
		return "", nil
	}
	switch t := d.Design.Preform.Targets; {
	case t == nil:
		return "bottle.parts", d.Design.Bottle.Planes
	case len(t.Planes) == 0:
		return "preform.section_targets.planes", d.Design.Bottle.Planes
	}
	return "", nil
}
