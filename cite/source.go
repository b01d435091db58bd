package cite

import (
	_ "embed"
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

// Lookup returns the source with the given key.
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

// ParseSources reads the stanzas of a source file. Errors name the line.
func ParseSources(text string) (map[string]Source, error) {
	out := map[string]Source{}
	var cur *Source
	flush := func(line int) error {
		if cur == nil {
			return nil
		}
		if cur.Authors == "" || cur.Title == "" || cur.Where == "" || cur.Year == "" || cur.Read == "" {
			return fmt.Errorf("sources.txt: line %d: entry %s lacks authors, title, where, year or read", line, cur.Key)
		}
		if _, dup := out[cur.Key]; dup {
			return fmt.Errorf("sources.txt: line %d: entry %s stands twice", line, cur.Key)
		}
		out[cur.Key] = *cur
		return nil
	}
	for i, line := range strings.Split(text, "\n") {
		n := i + 1
		line = strings.TrimSpace(line)
		switch {
		case line == "" || strings.HasPrefix(line, "#"):
		case strings.HasPrefix(line, "@"):
			if err := flush(n); err != nil {
				return nil, err
			}
			cur = &Source{Key: strings.TrimPrefix(line, "@")}
		default:
			field, value, ok := strings.Cut(line, ":")
			if !ok || cur == nil {
				return nil, fmt.Errorf("sources.txt: line %d: want \"field: value\" under an @Key, have %q", n, line)
			}
			value = strings.TrimSpace(value)
			switch strings.TrimSpace(field) {
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
				return nil, fmt.Errorf("sources.txt: line %d: unknown field %q", n, field)
			}
		}
	}
	if err := flush(len(text)); err != nil {
		return nil, err
	}
	return out, nil
}
