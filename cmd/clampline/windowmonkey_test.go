package main

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
	"clampline/diagram/file/filetest"
)

const (
	// soakTime is the environment variable that makes the monkey work for longer,
	// on a large sheet: how long, such as 1h.
	soakTime = "CLAMPLINE_SOAK"
	// frozen is how long the window may take for what it was last asked to do.
	frozen = 30 * time.Second
	// roomOfWindow is what the program may hold of the machine's memory at the end.
	roomOfWindow = 500 << 20 // bytes
	largeSheet   = 1000      // parts
	burst        = 25        // things done between two looks at the window
)

// monkey does anything at the window.
type monkey struct {
	hand
	*rand.Rand
	did   int
	parts int // of the sheet when it was looked at
}

// TestWindowMonkey clicks, drags, types and turns the wheel anywhere. The window
// goes on answering, the sheet stays one that can be saved, and the memory stays
// bounded.
func TestWindowMonkey(t *testing.T) {
	if os.Getenv(wanted) == "" {
		t.Skipf("set %s to drive the program in a real window", wanted)
	}
	length, seed := 5*time.Second, uint64(1)
	if text := os.Getenv(soakTime); text != "" {
		var err error
		if length, err = time.ParseDuration(text); err != nil {
			t.Fatal(err)
		}
		seed = uint64(time.Now().Unix())
	}
	m := &monkey{hand: hand{t: t}, Rand: diagramtest.Rand(seed)}
	m.window = strings.Fields(m.xdotool("search", "--sync", "--onlyvisible", "--name", "Clampline"))[0]
	m.xdotool("windowactivate", "--sync", m.window)
	told := time.Now()
	for begun := time.Now(); time.Since(begun) < length; {
		if !m.work() {
			t.Logf("the monkey closed the window, seed %d: %s", seed, m.state())
			return
		}
		if time.Since(told) > time.Minute {
			told = time.Now()
			m.largeAgain()
			fmt.Printf("after %v: %s\n", time.Since(begun).Round(time.Second), m.state())
		}
	}
	t.Logf("seed %d: %s", seed, m.state())
	if held := memoryOf("VmRSS"); os.Getenv(soakTime) != "" && held > roomOfWindow {
		t.Errorf("%d MB are held at the end", held>>20)
	}
}

// work does a burst of things and looks at the window. It returns false where
// the window is gone.
func (m *monkey) work() bool {
	for range burst {
		if isClosed() {
			return false
		}
		m.anything()
		m.did++
	}
	return m.looks()
}

// largeAgain opens a large sheet where little is left of the one before.
func (m *monkey) largeAgain() {
	if os.Getenv(soakTime) == "" {
		return
	}
	path := filepath.Join(m.t.TempDir(), "large.clampline")
	writeLargeSheet(path)
	go fyne.Do(func() {
		if parts, _, _ := program.Editor().Document().Count(); parts < largeSheet/2 {
			program.OpenPath(path)
		}
	})
}

// anything does one thing. What fails because the window has just gone, or has
// turned into another, is done in vain.
func (m *monkey) anything() {
	at := func() []string {
		return []string{"mousemove", "--window", m.window, fmt.Sprint(m.IntN(1400)), fmt.Sprint(m.IntN(900))}
	}
	var do []string
	switch m.IntN(8) {
	case 0, 1, 2:
		do = append(at(), "sleep", "0.03", "click", "--repeat", fmt.Sprint(1+m.IntN(2)), "--delay", "60", []string{"1", "1", "1", "3"}[m.IntN(4)])
	case 3:
		do = append(at(), "sleep", "0.03", "mousedown", "1")
		for range 4 {
			do = append(append(do, at()...), "sleep", "0.02")
		}
		do = append(do, "mouseup", "1")
	case 4:
		do = append(at(), "click", "--repeat", fmt.Sprint(1+m.IntN(6)), "--delay", "20", fmt.Sprint(4+m.IntN(4)))
	case 5:
		do = []string{"type", "--delay", "15", []string{"22", "26 in", "-1", "1e309", "480Y/277", "Hall", "ä…", "3'6\"", "p", "f", "12 kA"}[m.IntN(11)]}
	default:
		do = append([]string{"key", "--delay", "15"}, m.someKeys()...)
	}
	if err := toolCommand(do...).Run(); err != nil && !isClosed() {
		time.Sleep(100 * time.Millisecond)
	}
}

// someKeys mostly leave what was begun, so that the monkey comes round.
func (m *monkey) someKeys() []string {
	keys := []string{
		"Escape", "Escape", "Escape", "Return", "Tab", "Tab", "shift+Tab", "space", "Delete", "BackSpace", "Left", "Right", "Up", "Down", "Home", "End",
		"ctrl+a", "ctrl+c", "ctrl+v", "ctrl+x", "ctrl+d", "ctrl+z", "ctrl+z", "ctrl+z", "ctrl+y", "ctrl+s", "ctrl+n", "ctrl+o", "ctrl+e", "ctrl+f", "ctrl+p",
		"ctrl+0", "ctrl+plus", "ctrl+minus", "F1", "F2", "F5", "F11", "1", "5", "9", "t", "plus", "minus",
	}
	out := []string{keys[m.IntN(len(keys))]}
	if out[0] == "ctrl+z" && m.IntN(4) == 0 {
		for range 60 { // what was taken away comes back now and then
			out = append(out, "ctrl+z")
		}
	}
	return out
}

// looks reports whether the window is still there. One that does not answer, and
// a sheet that could not be saved and read again, are errors.
func (m *monkey) looks() bool {
	m.t.Helper()
	answered := make(chan error, 1)
	go fyne.Do(func() {
		m.parts, _, _ = program.Editor().Document().Count()
		answered <- readAgain(program.Editor().Document())
	})
	select {
	case err := <-answered:
		if err != nil {
			m.screenshot("monkey")
			m.t.Fatalf("after %d things: %v", m.did, err)
		}
		return true
	case <-closed:
		return false
	case <-time.After(frozen):
		text := make([]byte, 1<<20)
		m.t.Fatalf("the window does not answer after %d things\n%s", m.did, text[:runtime.Stack(text, true)])
		return false
	}
}

func readAgain(doc *diagram.Document) error {
	var first, second bytes.Buffer
	if err := file.Write(&first, doc); err != nil {
		return err
	}
	again, err := file.Read(bytes.NewReader(first.Bytes()))
	if err != nil {
		return err
	}
	if err := file.Write(&second, again); err != nil {
		return err
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		return errors.New("the sheet changes when it is read")
	}
	return nil
}

func isClosed() bool {
	select {
	case <-closed:
		return true
	default:
		return false
	}
}

func (m *monkey) state() string {
	return fmt.Sprintf("%d things done, %d parts, %d MB held, %d MB at most", m.did, m.parts, memoryOf("VmRSS")>>20, memoryOf("VmHWM")>>20)
}

// memoryOf returns a figure that Linux tells of this process, in bytes.
func memoryOf(name string) int {
	text, _ := os.ReadFile("/proc/self/status")
	for line := range strings.Lines(string(text)) {
		var kilobytes int
		if rest, ok := strings.CutPrefix(line, name+":"); ok {
			if _, err := fmt.Sscan(rest, &kilobytes); err == nil {
				return kilobytes << 10
			}
		}
	}
	return 0
}

// writeLargeSheet puts a sheet of many parts where the window looks for its file.
func writeLargeSheet(path string) {
	if err := filetest.Save(path, diagramtest.Building(largeSheet)); err != nil {
		panic(err)
	}
}
