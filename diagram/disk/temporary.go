package disk

import (
	"errors"
	"fmt"
	"hash/fnv"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"
)

const (
	temporaryPrefix = ".clampline-"
	temporaryEnd    = ".tmp"
)

// patience is after how long a temporary file is taken for left over where it
// cannot be told whose it is.
const patience = time.Hour

// run tells this run of the program from another that had its number.
var run = strconv.FormatUint(rand.Uint64(), 36)

// temporary returns a new name in the folder of the path. It says which run of
// which process on which machine uses it, and does not grow with the name of
// the file, which may be as long as the system allows.
func temporary(path string) string {
	name := fmt.Sprintf("%s%s-%d-%s-%s%s", temporaryPrefix, machine(), os.Getpid(), run, strconv.FormatUint(rand.Uint64(), 36), temporaryEnd)
	return filepath.Join(filepath.Dir(path), name)
}

// machine is a short name of this computer.
func machine() string {
	name, _ := os.Hostname() // where there is none, all such are alike
	sum := fnv.New32a()
	sum.Write([]byte(name))
	return strconv.FormatUint(uint64(sum.Sum32()), 36)
}

// Clean removes what writes and programs that were cut short have left in the
// folder: temporary files, and locks that nobody holds. What cannot be removed
// stays.
func (d Disk) Clean(folder string) {
	entries, err := d.system().ReadDir(folder)
	if err != nil {
		return
	}
	cleanLocks(folder)
	for _, entry := range entries {
		if leftOver(entry) {
			_ = d.system().Remove(filepath.Join(folder, entry.Name()))
		}
	}
}

// leftOver reports whether no program is writing the file any more.
func leftOver(entry fs.DirEntry) bool {
	name, ok := strings.CutPrefix(entry.Name(), temporaryPrefix)
	if !ok || !entry.Type().IsRegular() {
		return false
	}
	if name, ok = strings.CutSuffix(name, temporaryEnd); !ok {
		return false
	}
	parts := strings.Split(name, "-")
	if len(parts) == 4 && parts[0] == machine() {
		if pid, err := strconv.Atoi(parts[1]); err == nil {
			return pid == os.Getpid() && parts[2] != run || !Running(pid)
		}
	}
	info, err := entry.Info()
	return err == nil && time.Since(info.ModTime()) > patience
}

// Running reports whether a process with the number is alive.
func Running(pid int) bool {
	process, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	defer process.Release()
	if runtime.GOOS == "windows" {
		return true // there, only a living process is found
	}
	err = process.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, fs.ErrPermission) // of somebody else
}
