package store

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"
)

var noon = time.Date(2026, 1, 2, 12, 0, 0, 0, time.UTC)

func open(t *testing.T, dir string) *Folder {
	t.Helper()
	f, err := Open(dir, noon)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f
}

func mustWrite(t *testing.T, f *Folder, name, text, base string) string {
	t.Helper()
	v, err := f.Write(name, text, base)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestWriteReadList(t *testing.T) {
	dir := t.TempDir()
	f := open(t, dir)
	v1 := mustWrite(t, f, "sorrel lime.yaml", "name: a\n", "")
	mustWrite(t, f, "Größe µ.yaml", "name: b\n", "")
	for _, other := range []string{".hidden.yaml", "notes.txt", "x.yml"} {
		if err := os.WriteFile(filepath.Join(dir, other), nil, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "folder.yaml"), 0o755); err != nil {
		t.Fatal(err)
	}
	got, err := f.List()
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range got {
		names = append(names, e.Name)
		if e.Modified.IsZero() || e.Size != 8 || e.Version == "" {
			t.Errorf("entry %+v is not whole", e)
		}
	}
	if want := []string{"Größe µ.yaml", "sorrel lime.yaml"}; !slices.Equal(names, want) {
		t.Errorf("List = %v, want %v", names, want)
	}
	file, err := f.Read("sorrel lime.yaml")
	if err != nil || file.Text != "name: a\n" || file.Version != v1 || v1 != Version("name: a\n") {
		t.Errorf("Read = %+v, %v; version written %s", file, err, v1)
	}
	v2 := mustWrite(t, f, "sorrel lime.yaml", "name: c\n", v1)
	if v2 == v1 {
		t.Error("the version did not change with the text")
	}
	if _, err := f.Read("none.yaml"); !errors.Is(err, ErrNotFound) {
		t.Errorf("Read of a missing file: %v", err)
	}
	leftovers(t, dir)
}

func leftovers(t *testing.T, dir string) {
	t.Helper()
	left, err := filepath.Glob(filepath.Join(dir, tempPrefix+"*"+tempSuffix))
	if err != nil || len(left) > 0 {
		t.Errorf("files left in the making: %v %v", left, err)
	}
}

func TestConflicts(t *testing.T) {
	dir := t.TempDir()
	f := open(t, dir)
	base := mustWrite(t, f, "a.yaml", "one", "")
	path := filepath.Join(dir, "a.yaml")
	put := func(text string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want := func(what string, err error, text string) {
		t.Helper()
		var c *Conflict
		if !errors.As(err, &c) {
			t.Fatalf("%s: %v, want a conflict", what, err)
		}
		if c.Text != text || c.Name != "a.yaml" || (c.Version == "") != (text == "") || c.Version != "" && c.Version != Version(text) {
			t.Errorf("%s: %+v, want text %q", what, c, text)
		}
	}
	put("two")
	_, err := f.Write("a.yaml", "mine", base)
	want("changed meanwhile", err, "two")
	if b, _ := os.ReadFile(path); string(b) != "two" {
		t.Errorf("a refused save changed the file to %q", b)
	}
	_, err = f.Write("a.yaml", "mine", "")
	want("created meanwhile", err, "two")
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	_, err = f.Write("a.yaml", "mine", base)
	want("deleted meanwhile", err, "")
	// Having read the conflict, the user decides: write over what is there.
	put("two")
	mustWrite(t, f, "a.yaml", "mine", Version("two"))
	// The same text from another hand is no conflict.
	put("same")
	mustWrite(t, f, "a.yaml", "same", base)
	leftovers(t, dir)
}

func TestNames(t *testing.T) {
	for _, good := range []string{"a.yaml", "Sorrel Lime 1,75 L (b).yaml", "Größe.yaml", "日本.yaml", "a.b.yaml", strings.Repeat("x", longestName-5) + ".yaml"} {
		if err := CheckName(good); err != nil {
			t.Errorf("%q refused: %v", good, err)
		}
	}
	f := open(t, t.TempDir())
	for _, bad := range []string{
		"", ".yaml", "a", "a.yml", "a.yaml.txt", "a.YAML", "../a.yaml", "a/b.yaml", `a\b.yaml`, "/etc/a.yaml", ".a.yaml", "..yaml", " a.yaml", "a .yaml", "a..yaml",
		"-a.yaml", "~a.yaml", "a\x00.yaml", "a\n.yaml", "a\u202e.yaml", "a\u00a0b.yaml", "a\ufeff.yaml", "a\xff.yaml", "a:b.yaml", "a*.yaml", "a?.yaml", "con.yaml", "COM1.x.yaml", "NUL.yaml",
		strings.Repeat("x", longestName) + ".yaml",
	} {
		if _, err := f.Write(bad, "x", ""); !errors.Is(err, ErrName) {
			t.Errorf("Write(%q): %v, want ErrName", bad, err)
		}
		if _, err := f.Read(bad); !errors.Is(err, ErrName) {
			t.Errorf("Read(%q): %v, want ErrName", bad, err)
		}
	}
}

func TestLinksStayInside(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links need rights there")
	}
	outside := filepath.Join(t.TempDir(), "secret.yaml")
	if err := os.WriteFile(outside, []byte("secret"), 0o644); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	f := open(t, dir)
	mustWrite(t, f, "in.yaml", "in", "")
	for name, to := range map[string]string{"out.yaml": outside, "up.yaml": "../../x.yaml", "in2.yaml": "in.yaml", "gone.yaml": "nothing.yaml"} {
		if err := os.Symlink(to, filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"out.yaml", "up.yaml", "gone.yaml"} {
		if got, err := f.Read(name); err == nil {
			t.Errorf("Read(%s) gave %q", name, got.Text)
		}
	}
	for _, name := range []string{"out.yaml", "up.yaml", "gone.yaml", "in2.yaml"} {
		if _, err := f.Write(name, "x", ""); err == nil {
			t.Errorf("Write(%s) went through a link", name)
		}
		if _, err := f.Write(name, "x", Version("secret")); err == nil {
			t.Errorf("Write(%s) went through a link", name)
		}
	}
	if b, _ := os.ReadFile(outside); string(b) != "secret" {
		t.Errorf("the file outside holds %q", b)
	}
	list, err := f.List()
	if err != nil || len(list) != 2 { // in.yaml and the link to it
		t.Errorf("List = %v, %v", list, err)
	}
}

func TestDuplicate(t *testing.T) {
	f := open(t, t.TempDir())
	v := mustWrite(t, f, "a.yaml", "one", "")
	got, err := f.Duplicate("a.yaml", "b.yaml")
	if err != nil || got != v {
		t.Errorf("Duplicate = %s, %v", got, err)
	}
	if _, err := f.Duplicate("none.yaml", "c.yaml"); !errors.Is(err, ErrNotFound) {
		t.Errorf("of a missing file: %v", err)
	}
	var c *Conflict
	if _, err := f.Duplicate("a.yaml", "b.yaml"); !errors.As(err, &c) || c.Text != "one" {
		t.Errorf("onto a file that is there: %v", err)
	}
	if _, err := f.Duplicate("a.yaml", "../b.yaml"); !errors.Is(err, ErrName) {
		t.Errorf("out of the folder: %v", err)
	}
}

func TestOpenSweeps(t *testing.T) {
	dir := t.TempDir()
	for name, age := range map[string]time.Duration{".costrel-1-1.tmp": 2 * time.Hour, ".costrel-1-2.tmp": time.Minute, "a.yaml": 100 * time.Hour, ".other.tmp": 100 * time.Hour} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, nil, 0o644); err != nil {
			t.Fatal(err)
		}
		if err := os.Chtimes(path, noon.Add(-age), noon.Add(-age)); err != nil {
			t.Fatal(err)
		}
	}
	open(t, dir)
	var left []string
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		left = append(left, e.Name())
	}
	if want := []string{".costrel-1-2.tmp", ".other.tmp", "a.yaml"}; !slices.Equal(left, want) {
		t.Errorf("left %v, want %v", left, want)
	}
	if _, err := Open(filepath.Join(dir, "none"), noon); err == nil {
		t.Error("a folder that is not there was opened")
	}
}

func TestModeStays(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no modes there")
	}
	dir := t.TempDir()
	f := open(t, dir)
	v := mustWrite(t, f, "a.yaml", "one", "")
	path := filepath.Join(dir, "a.yaml")
	if err := os.Chmod(path, 0o600); err != nil {
		t.Fatal(err)
	}
	mustWrite(t, f, "a.yaml", "two", v)
	info, err := os.Stat(path)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v; want 0600 as before", info.Mode(), err)
	}
}

func TestSizeLimit(t *testing.T) {
	dir := t.TempDir()
	f := open(t, dir)
	big := strings.Repeat("x", MaxBytes+1)
	if _, err := f.Write("a.yaml", big, ""); err == nil {
		t.Error("a text beyond the limit was written")
	}
	if err := os.WriteFile(filepath.Join(dir, "b.yaml"), []byte(big), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Read("b.yaml"); err == nil {
		t.Error("a file beyond the limit was read")
	}
	if list, err := f.List(); err != nil || len(list) != 1 || list[0].Version != "" {
		t.Errorf("List = %v, %v; want the file without a version", list, err)
	}
}

// TestLinkOutside: a link that leads out of the folder is refused by name.
func TestLinkOutside(t *testing.T) {
	dir := t.TempDir()
	f, err := Open(dir, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(filepath.Join(t.TempDir(), "elsewhere.yaml"), filepath.Join(dir, "link.yaml")); err != nil {
		t.Skip("no links here: ", err)
	}
	if _, err := f.Read("link.yaml"); !errors.Is(err, ErrName) && !errors.Is(err, ErrNotFound) {
		t.Errorf("%v, want a refusal of the name", err)
	}
}
