package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"runtime"
	"syscall"
)

// Open opens a file to be read. Anything else at the path, such as a folder, a
// pipe or a device, is refused at once, and never waited for.
func (d Disk) Open(path string) (File, error) {
	info, err := d.system().Stat(path)
	if err == nil {
		err = ordinary(info)
	}
	if err != nil {
		return nil, err
	}
	f, err := d.system().OpenFile(path, readFlags(), 0)
	if err != nil {
		return nil, err
	}
	info, err = f.Stat() // what stands there now may be another thing
	if err == nil {
		err = ordinary(info)
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}

// readFlags are such that opening a pipe does not wait for its other end.
func readFlags() int {
	if runtime.GOOS == "windows" {
		return os.O_RDONLY
	}
	return os.O_RDONLY | syscall.O_NONBLOCK
}

// ordinary refuses what is no ordinary file, by name.
func ordinary(info fs.FileInfo) error {
	what := "no ordinary file"
	switch mode := info.Mode(); {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return errFolder
	case mode&fs.ModeNamedPipe != 0:
		what = "a pipe between programs and no file"
	case mode&fs.ModeDevice != 0:
		what = "a device and no file"
	case mode&fs.ModeSocket != 0:
		what = "a socket and no file"
	}
	return fmt.Errorf("it is %s; choose a file", what)
}

var errFolder = errors.New("it is a folder; choose a file in it")
