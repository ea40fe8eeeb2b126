package disk

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"os/user"
	"path/filepath"
	"runtime"
	"time"

	"github.com/gofrs/flock"
)

// Lock says that a file is open in this program. The system takes it away when
// the program ends in any way.
type Lock struct {
	path string // of the file that is locked in its stead
	held *flock.Flock
}

// Holder is who has a file open.
type Holder struct {
	User    string    `json:"user"`
	Host    string    `json:"host"`
	Process int       `json:"process"`
	Since   time.Time `json:"since"`
}

// String names the holder, as far as it is known.
func (h Holder) String() string {
	out := "another window or program"
	if h.User == "" {
		return out
	}
	out = h.User
	if host, _ := os.Hostname(); h.Host != "" && h.Host != host {
		out += " on " + h.Host
	}
	return fmt.Sprintf("%s, in another window since %s", out, h.Since.Local().Format("2006-01-02 15:04"))
}

// HeldError is that somebody else has the file open.
type HeldError struct{ Holder Holder }

// Error says who has it, and what to do.
func (e *HeldError) Error() string {
	return "it is open elsewhere (" + e.Holder.String() + "); close it there, or choose another name"
}

// TryLock locks the file at the path, which need not exist, and never waits. A
// file beside it is locked in its stead, since the file itself is replaced at
// each save. The error is a *HeldError where another has it. A folder where
// nothing can be locked gives a lock that keeps nobody out: what is written
// there is still compared with what is expected.
func TryLock(path string) (*Lock, error) {
	path = Disk{}.Target(path)
	name := lockPath(path)
	for try := range lockTries {
		f := flock.New(name, flock.SetPermissions(0o666))
		ok, err := f.TryLock()
		switch {
		case err != nil:
			return &Lock{}, nil
		case !ok && try+1 == lockTries:
			return nil, &HeldError{holderIn(name)}
		case !ok:
			time.Sleep(lockPause) // somebody may only be looking whether it is left over
		case isStill(f, name) && (note(name) || os.Remove(name) != nil):
			return &Lock{name, f}, nil
		}
		_ = f.Close() // it has just been removed: try the new one
	}
	return &Lock{}, nil
}

const (
	lockTries = 5
	lockPause = 4 * time.Millisecond
)

// lockPath is where the lock of a file lies. The length of its name does not
// depend on that of the file.
func lockPath(path string) string {
	sum := sha256.Sum256([]byte(filepath.Base(path)))
	return filepath.Join(filepath.Dir(path), temporaryPrefix+hex.EncodeToString(sum[:8])+".lock")
}

// isStill reports whether what was locked is what bears the name.
func isStill(f *flock.Flock, name string) bool {
	locked, err := f.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(name)
	return err == nil && os.SameFile(locked, named)
}

// note writes who has the lock, for others to read, and reports whether none but
// that stands there.
func note(name string) bool {
	if runtime.GOOS == "windows" {
		return true // nobody could read it while it is locked
	}
	text, err := json.Marshal(holder())
	return err == nil && os.WriteFile(name, text, 0o666) == nil
}

func holder() Holder {
	out := Holder{Process: os.Getpid(), Since: time.Now()}
	out.Host, _ = os.Hostname()
	if u, err := user.Current(); err == nil {
		out.User = u.Username
	}
	return out
}

func holderIn(name string) Holder {
	var out Holder
	text, err := os.ReadFile(name)
	if err != nil || json.Unmarshal(text, &out) != nil {
		return Holder{}
	}
	return out
}

// Held reports whether the lock keeps others out.
func (l *Lock) Held() bool { return l != nil && l.held != nil }

// Release lets others have the file. A nil Lock holds nothing.
func (l *Lock) Release() {
	if !l.Held() {
		return
	}
	ours := isStill(l.held, l.path)
	if ours && runtime.GOOS != "windows" {
		_ = os.Remove(l.path) // before anyone can lock it
	}
	_ = l.held.Close()
	if ours && runtime.GOOS == "windows" {
		_ = os.Remove(l.path) // which fails where the next one has it already
	}
	l.held = nil
}

// cleanLocks removes the locks in the folder that nobody holds.
func cleanLocks(folder string) {
	names, err := filepath.Glob(filepath.Join(folder, temporaryPrefix+"*.lock"))
	if err != nil {
		return
	}
	for _, name := range names {
		f := flock.New(name)
		if ok, err := f.TryLock(); err == nil && ok && isStill(f, name) {
			(&Lock{name, f}).Release()
			continue
		}
		_ = f.Close()
	}
}
