package aql

import (
	"fmt"
	"slices"
)

// Level is an inspection level.
type Level string

// The levels, the four special ones first.
const (
	S1  Level = "S-1"
	S2  Level = "S-2"
	S3  Level = "S-3"
	S4  Level = "S-4"
	I   Level = "I"
	II  Level = "II" // the usual one
	III Level = "III"
)

// Levels lists the levels in the order of the table of code letters.
func Levels() []Level { return []Level{S1, S2, S3, S4, I, II, III} }

// lotRow is one row of the table of code letters: lots up to a size.
type lotRow struct {
	upTo    int // 0: no end
	letters string
}

// letters is the table of code letters of MILSTD105E, one letter a level.
var letters = [...]lotRow{
	{8, "AAAAAAB"},
	{15, "AAAAABC"},
	{25, "AABBBCD"},
	{50, "ABBCCDE"},
	{90, "BBCCCEF"},
	{150, "BBCDDFG"},
	{280, "BCDEEGH"},
	{500, "BCDEFHJ"},
	{1200, "CCEFGJK"},
	{3200, "CDEGHKL"},
	{10000, "CDFGJLM"},
	{35000, "CDFHKMN"},
	{150000, "DEGJLNP"},
	{500000, "DEGJMPQ"},
	{0, "DEHKNQR"},
}

// CodeLetter returns the code letter of a lot of at least 2 at a level.
// Source: MILSTD105E, table I.
func CodeLetter(lot int, level Level) (string, error) {
	if lot < 2 {
		return "", fmt.Errorf("aql: code letter: lot of %d, want at least 2", lot)
	}
	col := slices.Index(Levels(), level)
	if col < 0 {
		return "", fmt.Errorf("aql: code letter: level %q is none of %v", level, Levels())
	}
	for _, r := range letters {
		if lot <= r.upTo || r.upTo == 0 {
			return r.letters[col : col+1], nil
		}
	}
	return "", fmt.Errorf("aql: code letter: no row for a lot of %d", lot)
}
