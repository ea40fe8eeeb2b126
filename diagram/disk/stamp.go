package disk

import (
	"crypto/sha256"
	"errors"
	"hash"
	"io"
	"io/fs"
	"time"
)

// Stamp is what stood at a path at a moment. The zero value is that nothing did.
type Stamp struct {
	Exists bool
	Size   int64
	Time   time.Time // of the last change
	Sum    [sha256.Size]byte
}

// Same reports whether the contents are the same, byte by byte.
func (s Stamp) Same(other Stamp) bool { return s.Exists == other.Exists && s.Sum == other.Sum }

// Stamp reads the file at the path.
func (d Disk) Stamp(path string) (Stamp, error) {
	f, err := d.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Stamp{}, nil
	}
	if err != nil {
		return Stamp{}, err
	}
	reader := NewStamper(f)
	_, err = io.Copy(io.Discard, reader)
	if err == nil {
		return reader.Finish()
	}
	return Stamp{}, errors.Join(err, f.Close())
}

// Unchanged reports whether the file looks as it did, by its size and time
// alone. Where it does not, Stamp tells whether it differs.
func (d Disk) Unchanged(path string, s Stamp) bool {
	info, err := d.system().Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return !s.Exists
	}
	return err == nil && s.Exists && info.Size() == s.Size && info.ModTime().Equal(s.Time)
}

// Stamper takes the stamp of a file while it is read.
type Stamper struct {
	file File
	sum  hash.Hash
}

// NewStamper reads the file, from its beginning.
func NewStamper(f File) *Stamper { return &Stamper{f, sha256.New()} }

// Read implements io.Reader.
func (s *Stamper) Read(p []byte) (int, error) {
	n, err := s.file.Read(p)
	s.sum.Write(p[:n])
	return n, err
}

// Finish closes the file and returns its stamp. Everything must have been read.
func (s *Stamper) Finish() (Stamp, error) {
	info, err := s.file.Stat()
	if err = errors.Join(err, s.file.Close()); err != nil {
		return Stamp{}, err
	}
	out := Stamp{Exists: true, Size: info.Size(), Time: info.ModTime()}
	s.sum.Sum(out.Sum[:0])
	return out, nil
}
