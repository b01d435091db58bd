package store

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
)

// The test program starts itself as a second writer.
func TestMain(m *testing.M) {
	dir := os.Getenv("COSTREL_STORE_DIR")
	switch os.Getenv("COSTREL_STORE_ACT") {
	case "":
		os.Exit(m.Run())
	case "append":
		n, _ := strconv.Atoi(os.Getenv("COSTREL_STORE_N"))
		f, err := Open(dir, noon)
		if err == nil {
			err = appendLines(f, os.Getenv("COSTREL_STORE_WHO"), n)
		}
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	case "forever":
		writeForever(dir)
	}
}

// appendLines adds n lines to the shared design, each on top of what stands
// there: a refused save is made again from the text on disk.
func appendLines(f *Folder, who string, n int) error {
	for i := range n {
		file, err := f.Read("shared.yaml")
		if err != nil {
			return err
		}
		text, base := file.Text, file.Version
		for {
			_, err := f.Write("shared.yaml", text+fmt.Sprintf("%s-%d: x\n", who, i), base)
			var c *Conflict
			if errors.As(err, &c) {
				text, base = c.Text, c.Version
				continue
			}
			if err != nil {
				return err
			}
			break
		}
	}
	return nil
}

func checkLines(t *testing.T, f *Folder, who []string, n int) {
	t.Helper()
	file, err := f.Read("shared.yaml")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(file.Text, "\n"), "\n")
	if len(lines) != len(who)*n+1 {
		t.Errorf("%d lines, want %d", len(lines), len(who)*n+1)
	}
	for _, w := range who {
		for i := range n {
			if !strings.Contains(file.Text, fmt.Sprintf("\n%s-%d: x\n", w, i)) {
				t.Errorf("line %d of %s is lost", i, w)
			}
		}
	}
}

func TestTwoWritersInOneProgram(t *testing.T) {
	dir := t.TempDir()
	f, g := open(t, dir), open(t, dir) // two folders: two locks
	mustWrite(t, f, "shared.yaml", "head: x\n", "")
	who := []string{"a", "b", "c", "d"}
	var wg sync.WaitGroup
	for i, w := range who {
		wg.Go(func() {
			if err := appendLines([]*Folder{f, g}[i%2], w, 25); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	checkLines(t, f, who, 25)
	leftovers(t, dir)
}

func self(t *testing.T, env ...string) *exec.Cmd {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(exe)
	cmd.Env = append(os.Environ(), env...)
	cmd.Stderr = os.Stderr
	return cmd
}

func TestTwoWritersInTwoPrograms(t *testing.T) {
	if testing.Short() {
		t.Skip("starts programs")
	}
	dir := t.TempDir()
	f := open(t, dir)
	mustWrite(t, f, "shared.yaml", "head: x\n", "")
	who := []string{"a", "b"}
	var cmds []*exec.Cmd
	for _, w := range who {
		cmd := self(t, "COSTREL_STORE_ACT=append", "COSTREL_STORE_DIR="+dir, "COSTREL_STORE_WHO="+w, "COSTREL_STORE_N=40")
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		cmds = append(cmds, cmd)
	}
	for _, cmd := range cmds {
		if err := cmd.Wait(); err != nil {
			t.Error(err)
		}
	}
	checkLines(t, f, who, 40)
	leftovers(t, dir)
}

// texts are two designs large enough that a save takes several writes.
func texts() [2]string {
	return [2]string{strings.Repeat("a: 1\n", 200_000), strings.Repeat("b: 2\n", 150_000)}
}

// writeForever saves one text and the other until the program is killed, and
// tells each save.
func writeForever(dir string) {
	f, err := Open(dir, noon)
	if err != nil {
		panic(err)
	}
	both := texts()
	file, err := f.Read("a.yaml")
	if err != nil {
		panic(err)
	}
	base := file.Version
	for i := 0; ; i++ {
		text := both[i%2]
		fmt.Println(i)
		if base, err = f.Write("a.yaml", text, base); err != nil {
			panic(err)
		}
	}
}

// A program killed in the middle of a save leaves the old or the new text,
// never a piece of one.
func TestKilledDuringSave(t *testing.T) {
	if testing.Short() {
		t.Skip("starts programs")
	}
	dir := t.TempDir()
	both := texts()
	f := open(t, dir)
	mustWrite(t, f, "a.yaml", both[0], "")
	seen := map[string]int{}
	cut := 0
	for round := range 20 {
		cmd := self(t, "COSTREL_STORE_ACT=forever", "COSTREL_STORE_DIR="+dir)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		// The line is printed right before a save: wait for some, then for a
		// part of the save that differs from round to round.
		in := bufio.NewScanner(out)
		for range 2 + round%3 {
			in.Scan()
		}
		spin(round * 150_000)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		_ = cmd.Wait() // killed
		file, err := f.Read("a.yaml")
		if err != nil {
			t.Fatal(err)
		}
		if file.Text != both[0] && file.Text != both[1] {
			t.Fatalf("round %d: the file holds %d bytes of neither text", round, len(file.Text))
		}
		seen[file.Version]++
		left, err := filepath.Glob(filepath.Join(dir, tempPrefix+"*"+tempSuffix))
		if err != nil {
			t.Fatal(err)
		}
		cut += len(left)
		for _, l := range left {
			if err := os.Remove(l); err != nil {
				t.Fatal(err)
			}
		}
	}
	t.Logf("%d of 20 kills fell into the making of a file; texts left: %v", cut, seen)
	// The lock of the dead is free.
	file, err := f.Read("a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	mustWrite(t, f, "a.yaml", "after\n", file.Version)
}

// spin passes a little time without a clock.
func spin(n int) {
	x := 1.0
	for range n {
		x += 1 / x
	}
	if x < 0 {
		panic(x)
	}
}
