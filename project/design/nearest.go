package design

import (
	"cmp"
	"slices"
	"strings"
)

// Nearest returns the candidates that a misspelt word may mean, nearest first,
// at most n: those at the least edit distance or one more, then those that
// hold the word. It is empty when none is near.
func Nearest(word string, candidates []string, n int) []string {
	if len(word) > 200 {
		return nil
	}
	type near struct {
		word    string
		d, lost int
	}
	w := strings.ToLower(word)
	var all []near
	for _, c := range candidates {
		l := strings.ToLower(c)
		all = append(all, near{c, distance(w, l), lost(w, l)})
	}
	slices.SortStableFunc(all, func(a, b near) int { return cmp.Or(cmp.Compare(a.d, b.d), cmp.Compare(a.lost, b.lost)) })
	var out []string
	for _, c := range all {
		if c.d <= all[0].d+1 && c.d <= max(2, len(word)/3) && c.d < len([]rune(word)) {
			out = append(out, c.word)
		}
	}
	for _, c := range all {
		if len(w) >= 3 && strings.Contains(strings.ToLower(c.word), w) && !slices.Contains(out, c.word) {
			out = append(out, c.word)
		}
	}
	return out[:min(n, len(out))]
}

// nearest returns the candidate closest to word, or "" when none is near.
func nearest(word string, candidates []string) string {
	if len(word) > 200 {
		return ""
	}
	best, bestD, bestLost := "", 1<<30, 0
	w := strings.ToLower(word)
	for _, c := range candidates {
		d, l := distance(w, strings.ToLower(c)), lost(w, strings.ToLower(c))
		if d < bestD || d == bestD && l < bestLost {
			best, bestD, bestLost = c, d, l
		}
	}
	if bestD > max(2, len(word)/3) || bestD >= len([]rune(word)) {
		return ""
	}
	return best
}

// lost counts the characters of a word that another does not have.
func lost(a, b string) int {
	n := 0
	for _, r := range a {
		if i := strings.IndexRune(b, r); i >= 0 {
			b = b[:i] + b[i+len(string(r)):]
		} else {
			n++
		}
	}
	return n
}

// distance is the edit distance of two words (insert, delete, replace and
// swap of neighbours cost 1).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 64 {
		s = s[:64]
	}
	prev2, prev, cur := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(s); i++ {
		cur[0] = i
		for j := 1; j <= len(t); j++ {
			cost := 1
			if s[i-1] == t[j-1] {
				cost = 0
			}
			cur[j] = min(prev[j]+1, cur[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				cur[j] = min(cur[j], prev2[j-2]+1)
			}
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(t)]
}
