package cite

import (
	_ "embed"
	"errors"
	"fmt"
	"sort"
	"strings"
	"sync"
)

// Source is one published source.
type Source struct {
	Key     string `json:"key"`
	Authors string `json:"authors"`
	Title   string `json:"title"`
	Where   string `json:"where"`
	Year    string `json:"year"`
	Read    string `json:"read"` // what of it was read
	Note    string `json:"note,omitempty"`
}

// String returns the source as one line for a list of references.
func (s Source) String() string {
	line := fmt.Sprintf("%s (%s): %s. %s", s.Authors, s.Year, s.Title, s.Where)
	if s.Read != "" && s.Read != "-" {
		line += " [read: " + s.Read + "]"
	}
	return line
}

//go:embed sources.txt
var sourcesText string

var table = sync.OnceValues(func() (map[string]Source, error) { return ParseSources(sourcesText) })

// Lookup returns the source with the given key. It finds none while
// sources.txt has a fault, which [All] reports.
func Lookup(key string) (Source, bool) {
	m, err := table()
	if err != nil {
		return Source{}, false
	}
	s, ok := m[key]
	return s, ok
}

// All returns every source, sorted by key.
func All() ([]Source, error) {
	m, err := table()
	if err != nil {
		return nil, err
	}
	out := make([]Source, 0, len(m))
	for _, s := range m {
		out = append(out, s)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Key < out[j].Key })
	return out, nil
}

// ParseSources reads the stanzas of a source file. Every fault is reported,
// each with its line.
func ParseSources(text string) (map[string]Source, error) {
	out := map[string]Source{}
	var faults []string
	fault := func(n int, format string, args ...any) {
		faults = append(faults, fmt.Sprintf("sources.txt: line %d: %s", n, fmt.Sprintf(format, args...)))
	}
	var cur Source
	open, start := false, 0 // a stanza is open; its line
	var seen map[string]bool
	flush := func() {
		if !open {
			return
		}
		var lacks []string
		for _, f := range []struct{ name, value string }{
			{"authors", cur.Authors}, {"title", cur.Title}, {"where", cur.Where}, {"year", cur.Year}, {"read", cur.Read},
		} {
			if f.value == "" {
				lacks = append(lacks, f.name)
			}
		}
		if lacks != nil {
			fault(start, "entry %s lacks %s", cur.Key, strings.Join(lacks, ", "))
		}
		if _, dup := out[cur.Key]; dup {
			fault(start, "entry %s stands twice", cur.Key)
		}
		out[cur.Key] = cur
	}
	for i, line := range strings.Split(text, "\n") {
		n := i + 1
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if key, ok := strings.CutPrefix(line, "@"); ok {
			flush()
			open, start, cur, seen = true, n, Source{Key: strings.TrimSpace(key)}, map[string]bool{}
			if cur.Key == "" || strings.ContainsAny(cur.Key, " \t|") {
				fault(n, "want \"@AuthorYear\", have %q", line)
			}
			continue
		}
		field, value, ok := strings.Cut(line, ":")
		if !ok || !open {
			fault(n, "want \"field: value\" under an @Key, have %q", line)
			continue
		}
		field, value = strings.TrimSpace(field), strings.TrimSpace(value)
		if seen[field] {
			fault(n, "field %s of %s stands twice", field, cur.Key)
		}
		seen[field] = true
		switch field {
		case "authors":
			cur.Authors = value
		case "title":
			cur.Title = value
		case "where":
			cur.Where = value
		case "year":
			cur.Year = value
		case "read":
			cur.Read = value
		case "note":
			cur.Note = value
		default:
			fault(n, "unknown field %q", field)
		}
	}
	flush()
	if faults != nil {
		return nil, errors.New(strings.Join(faults, "\n"))
	}
	return out, nil
}
