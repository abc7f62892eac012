package disk

import (
	"io/fs"
	"os"

	"evendrop/tdc/job/source"
	"evendrop/tdc/job/system"
)

// OpenPlain opens a file that the user named for reading; missing is what to say of
// one that is not there. A folder, a pipe, a socket or a device is an error at once:
// nothing is waited for. An error is an *Error.
func OpenPlain(path string, missing error) (*os.File, error) {
	file, err := openPlain(os.Stat, os.OpenFile, path, os.O_RDONLY)
	if err != nil {
		return nil, source.Of(path, fileProblem(err, missing))
	}
	return file, nil
}

// ErrUnplain is why a file is none that can be read, in words.
type ErrUnplain string

func (e ErrUnplain) Error() string { return string(e) }

const errIsFolder = ErrUnplain("is a folder: name a file in it")

// openPlain is the one road to a file that is there: looked at first, since some
// devices do something when they are opened, and again once it is open.
func openPlain(stat func(string) (fs.FileInfo, error), open func(string, int, fs.FileMode) (*os.File, error), name string, flag int) (*os.File, error) {
	info, err := stat(name)
	if err == nil {
		err = unplain(info.Mode())
	}
	if err != nil {
		return nil, err
	}
	file, err := open(name, flag|system.NoWait, 0)
	if err != nil {
		return nil, err
	}
	if info, err = file.Stat(); err == nil {
		err = unplain(info.Mode())
	}
	if err != nil {
		file.Close()
		return nil, err
	}
	return file, nil
}

// unplain is why a file of that mode cannot be read as a file; nil of a plain one.
func unplain(mode fs.FileMode) error {
	what := "is a device"
	switch {
	case mode.IsRegular():
		return nil
	case mode.IsDir():
		return errIsFolder
	case mode&fs.ModeSymlink != 0:
		return ErrUnplain("is a link: name the file itself")
	case mode&fs.ModeNamedPipe != 0:
		what = "is a pipe"
	case mode&fs.ModeSocket != 0:
		what = "is a socket"
	}
	return ErrUnplain(what + ", not a plain file: save what it holds as a file, and name that")
}
