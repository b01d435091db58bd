package store

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Ext ends the name of every design file.
const Ext = ".yaml"

// longestName is the longest name of a file [bytes]; file systems end at 255.
const longestName = 200

// ErrName marks an error about the name of a design.
var ErrName = errors.New("not a name for a design file")

// CheckName returns nil when name may be used for a design file: letters of
// any script, no path, no leading dot, ending in .yaml. Names that one of the
// usual systems refuses or reads as something else are refused on all.
func CheckName(name string) error {
	if why := nameFault(name); why != "" {
		return fmt.Errorf("store: name %q %s: %w", shorten(name), why, ErrName)
	}
	return nil
}

func nameFault(name string) string {
	stem, ok := strings.CutSuffix(name, Ext)
	switch {
	case name == "":
		return "is empty"
	case !utf8.ValidString(name):
		return "is not UTF-8"
	case len(name) > longestName:
		return fmt.Sprintf("has %d bytes, more than %d", len(name), longestName)
	case strings.ContainsAny(name, `/\`):
		return "holds a path; designs lie in one folder"
	case name[0] == '.':
		return "begins with a dot"
	case !ok:
		return "does not end in " + Ext
	case strings.TrimSpace(stem) != stem || strings.HasSuffix(stem, "."):
		return "has a space at an end, or a dot before " + Ext
	case name[0] == '-' || name[0] == '~':
		return fmt.Sprintf("begins with %c", name[0])
	case reserved(stem):
		return "is the name of a device on some systems"
	}
	for _, r := range name {
		switch {
		case strings.ContainsRune(`<>:"|?*`, r):
			return fmt.Sprintf("holds %c, which some systems refuse", r)
		case !unicode.IsGraphic(r) || unicode.Is(unicode.Zs, r) && r != ' ':
			return fmt.Sprintf("holds the character U+%04X, which is not seen", r)
		}
	}
	return ""
}

func reserved(stem string) bool {
	word, _, _ := strings.Cut(strings.ToUpper(stem), ".")
	switch word {
	case "CON", "PRN", "AUX", "NUL":
		return true
	}
	return len(word) == 4 && (word[:3] == "COM" || word[:3] == "LPT") && word[3] >= '0' && word[3] <= '9'
}

func shorten(s string) string {
	s = strings.ToValidUTF8(s, "\ufffd")
	if r := []rune(s); len(r) > 80 {
		return string(r[:77]) + "..."
	}
	return s
}
