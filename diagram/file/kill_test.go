package file_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

const (
	// soak is the environment variable that makes the test longer: how long it
	// lasts, such as 90m; a bare number is in hours.
	soak = "CLAMPLINE_SOAK"
	// saver makes this program one that saves until it is killed; it holds the path.
	saver = "CLAMPLINE_TEST_SAVER"
)

// TestKill kills a program that saves, again and again, at a moment of chance.
// What it said was saved is there, or what it saved after that, and is whole;
// the same goes for its recovery copies, and nothing is left over.
func TestKill(t *testing.T) {
	if path := os.Getenv(saver); path != "" {
		saveForEver(path)
	}
	length := 5 * time.Second
	if text := os.Getenv(soak); text != "" {
		if hours, err := strconv.ParseFloat(text, 64); err == nil {
			text = fmt.Sprint(hours, "h")
		}
		var err error
		if length, err = time.ParseDuration(text); err != nil {
			t.Fatalf("%s: %v", soak, err)
		}
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "farm.clampline")
	kills, told := 0, 0
	random := rand.New(rand.NewPCG(1, 2))
	for end := time.Now().Add(length); (time.Now().Before(end) || kills < 24) && !t.Failed(); kills++ {
		told = max(told, killed(t, path, time.Duration(random.IntN(60))*time.Millisecond))
		if told == 0 {
			continue
		}
		if got := number(t, path); got < told {
			t.Errorf("kill %d: number %d is there, and %d was said to be saved", kills, got, told)
		}
		for _, r := range recoveries(t, filepath.Join(folder, "recovery")) {
			if r.Err != nil || r.Damaged > 0 || r.Original != path {
				t.Errorf("kill %d: %+v", kills, r)
			}
		}
	}
	if err := filetest.Save(path, numbered(0)); err != nil {
		t.Fatal(err)
	}
	left, err := filepath.Glob(filepath.Join(folder, ".*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left after the next save: %q, %v", left, err)
	}
	t.Logf("%d kills, %d saves", kills, told)
	if told < 24 {
		t.Errorf("only %d saves", told)
	}
}

// killed runs a program that saves and kills it after the pause. It returns the
// last number that the program said was saved.
func killed(t *testing.T, path string, pause time.Duration) int {
	t.Helper()
	c := exec.Command(os.Args[0], "-test.run=^TestKill$")
	c.Env = append(os.Environ(), saver+"="+path)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines, last := bufio.NewScanner(out), 0
	for lines.Scan() {
		if last == 0 {
			time.AfterFunc(pause, func() { _ = c.Process.Kill() })
		}
		n, err := strconv.Atoi(lines.Text())
		if err != nil {
			t.Errorf("the program that saves says %q", lines.Text())
		}
		last = n
	}
	_ = c.Wait() // it was killed
	return last
}

// saveForEver saves one number after the other, and says so.
func saveForEver(path string) {
	n := 0
	if opened, err := file.Open(path); err == nil {
		n, _ = strconv.Atoi(strings.Fields(opened.Document.Info().Title)[1])
	}
	for {
		n++
		err := filetest.Save(path, numbered(n))
		if err == nil {
			err = (file.Keeping{Folder: filepath.Join(filepath.Dir(path), "recovery"), Sheet: path, Generations: file.UsualGenerations}).Save(numbered(n))
		}
		if err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		fmt.Println(n)
	}
}

func numbered(n int) *diagram.Document {
	doc := diagramtest.Building(40)
	_, err := doc.Edit(func(tx *diagram.Tx) error {
		tx.SetInfo(diagram.Info{Title: fmt.Sprint("number ", n)})
		return nil
	})
	if err != nil {
		panic(err)
	}
	return doc
}

func number(t *testing.T, path string) int {
	t.Helper()
	n, err := strconv.Atoi(strings.TrimPrefix(titleOf(t, path), "number "))
	if err != nil {
		t.Error(err)
	}
	return n
}
