package main

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"testing"
	"time"

	"clampline/diagram"
	"clampline/diagram/diagramtest"
	"clampline/diagram/file"
)

// Bounds of what a case may take.
const (
	slowCase   = 2 * time.Second
	stuckCase  = 30 * time.Second // of the processor: after it a case counts as one that does not end
	waiting    = 5 * time.Minute  // the same for one that waits, and in case other work holds it up
	largeCase  = 300 << 20        // bytes
	briefTime  = 4 * time.Second  // of a run among the other tests
	stormCount = 10               // cases of one kind that are told one by one
)

// soakCase is one case of the soak: the sheet or text that it is about, kept
// where it fails, and the work on it.
type soakCase struct {
	kept []byte
	name string // ending of the file that is kept
	work func() error
}

// sheetCase is a case about a sheet.
func sheetCase(doc *diagram.Document, work func(*diagram.Document) error) soakCase {
	var text bytes.Buffer
	if err := file.Write(&text, doc); err != nil {
		return soakCase{name: ".txt", work: func() error { return err }}
	}
	return soakCase{text.Bytes(), file.Extension, func() error { return work(doc) }}
}

// outcome is what became of a case.
type outcome string

const (
	fine       outcome = "cases"
	panicked   outcome = "panics"
	slow       outcome = "over 2 s"
	large      outcome = "over 300 MB"
	stuck      outcome = "loops"
	infinite   outcome = "infinities"
	misbehaved outcome = "other"
)

func outcomes() []outcome {
	return []outcome{fine, panicked, slow, large, stuck, infinite, misbehaved}
}

// soak runs cases of all targets in turn for a time.
type soak struct {
	t      *testing.T
	folder string // of what is kept
	counts map[outcome]int
	made   map[string]int // cases by target
	long   bool           // among the other tests time is not judged: they may run beside much else
}

// TestSoak runs for the time that CLAMPLINE_SOAK says, such as 10m, or for a
// few seconds. CLAMPLINE_SOAK_SEED begins with another seed.
func TestSoak(t *testing.T) {
	length, long := briefTime, os.Getenv("CLAMPLINE_SOAK")
	s := &soak{t: t, folder: t.TempDir(), counts: map[outcome]int{}, made: map[string]int{}, long: long != ""}
	seed := uint64(1)
	if long != "" {
		var err error
		if length, err = time.ParseDuration(long); err != nil {
			t.Fatal(err)
		}
		s.folder = os.Getenv("CLAMPLINE_SOAK_KEEP")
		seed = uint64(time.Now().Unix())
	}
	if text := os.Getenv("CLAMPLINE_SOAK_SEED"); text != "" {
		if _, err := fmt.Sscan(text, &seed); err != nil {
			t.Fatal(err)
		}
	}
	s.run(seed, length)
	if s.counts[fine] < len(soakTargets()) {
		t.Errorf("only %d cases were run", s.counts[fine])
	}
}

func (s *soak) run(seed uint64, length time.Duration) {
	begun, told := time.Now(), time.Now()
	for ; time.Since(begun) < length; seed++ {
		for _, target := range soakTargets() {
			s.one(target, seed)
			if s.long && time.Since(told) >= time.Minute {
				told = time.Now()
				s.tell(begun)
			}
		}
	}
	if s.long {
		s.tell(begun)
	}
}

// tell prints the counts so far.
func (s *soak) tell(begun time.Time) {
	var line strings.Builder
	fmt.Fprintf(&line, "after %v:", time.Since(begun).Round(time.Second))
	for _, o := range outcomes() {
		fmt.Fprintf(&line, " %s %d", o, s.counts[o])
	}
	for _, target := range soakTargets() {
		fmt.Fprintf(&line, "; %s %d", target.name, s.made[target.name])
	}
	fmt.Println(line.String())
}

// madeAndRun makes a case and runs it.
func madeAndRun(target soakTarget, seed uint64) (made soakCase, became outcome, why string) {
	became, why = watched(func() error {
		made = target.make(diagramtest.Rand(seed))
		return nil
	})
	if became == fine {
		became, why = watched(made.work)
	}
	return made, became, why
}

// one runs one case and counts what became of it. One that was slow is run twice
// more: other work on the machine may have held it up.
func (s *soak) one(target soakTarget, seed uint64) {
	made, became, why := madeAndRun(target, seed)
	for tries := 0; became == slow && tries < 2; tries++ {
		made, became, why = madeAndRun(target, seed)
	}
	s.counts[fine]++
	s.made[target.name]++
	if became == fine || became == slow && !s.long {
		return
	}
	if s.counts[became]++; s.counts[became] > stormCount {
		return
	}
	path := filepath.Join(s.folder, fmt.Sprintf("%s-%d%s", strings.ReplaceAll(target.name, " ", "-"), seed, made.name))
	if err := os.WriteFile(path, made.kept, 0o644); err != nil {
		s.t.Error(err)
	}
	s.t.Errorf("%s, seed %d, %s: %s\nkept as %s", target.name, seed, became, why, path)
}

// watched runs the work of a case beside a watch over its time and memory. One
// that does not end is left behind.
func watched(work func() error) (outcome, string) {
	type end struct {
		became outcome
		why    string
	}
	ended := make(chan end, 1)
	begun, before := time.Now(), used()
	go func() {
		defer func() {
			if p := recover(); p != nil {
				ended <- end{panicked, fmt.Sprintf("%v\n%s", p, debug.Stack())}
			}
		}()
		became, why := judgedCase(work())
		ended <- end{became, why}
	}()
	tick := time.NewTicker(50 * time.Millisecond)
	defer tick.Stop()
	most := uint64(0)
	for {
		select {
		case e := <-ended:
			return sized(e.became, e.why, used()-before, most)
		case <-tick.C:
			most = max(most, liveBytes(most))
			if used()-before > stuckCase || time.Since(begun) > waiting {
				return stuck, stacks()
			}
		}
	}
}

// judgedCase tells an infinity from another fault.
func judgedCase(err error) (outcome, string) {
	if err == nil {
		return fine, ""
	}
	if found := infinity(""); errors.As(err, &found) {
		return infinite, err.Error()
	}
	return misbehaved, err.Error()
}

func sized(became outcome, why string, took time.Duration, most uint64) (outcome, string) {
	switch {
	case became != fine:
		return became, why
	case most > largeCase:
		return large, fmt.Sprintf("%d MB", most>>20)
	case took > slowCase:
		return slow, took.String()
	}
	return fine, ""
}

// liveBytes returns what is in use on the heap; where that seems too much, after
// the garbage was taken away.
func liveBytes(before uint64) uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	if m.HeapAlloc > largeCase && before <= largeCase {
		runtime.GC()
		runtime.ReadMemStats(&m)
	}
	return m.HeapAlloc
}

func stacks() string {
	text := make([]byte, 1<<16)
	return string(text[:runtime.Stack(text, true)])
}

// infinity is an error that tells of a number that is none, or without end.
type infinity string

func (i infinity) Error() string { return string(i) }

func infinityOf(found string) error {
	if found == "" {
		return nil
	}
	return infinity(found)
}

// soakTarget makes cases of one kind from a source of random numbers.
type soakTarget struct {
	name string
	make func(*rand.Rand) soakCase
}
