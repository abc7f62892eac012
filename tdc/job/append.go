package job

import "bytes"

// Append writes tables such as [[mark]] to the end of a job file, whose own text
// stays byte for byte, whole or not at all. What would not open as a job after
// that, such as a mark with a name that is there already, is an *Error, and the
// file stays as it was.
func Append(path string, tables []byte) error {
	data, err := readFile(path, noJob)
	if err != nil {
		return err
	}
	end := lineEnd(data)
	whole := bytes.Clone(data)
	if len(data) > 0 && data[len(data)-1] != '\n' {
		whole = append(whole, end...)
	}
	whole = append(whole, end...)
	whole = append(whole, bytes.ReplaceAll(tables, []byte("\n"), []byte(end))...)
	if len(whole) > maxFile {
		return &Error{File: path, Problem: "would become larger than 1 MB: nothing was written"}
	}
	if _, err := parse(path, whole, folderOf(path).read); err != nil {
		return err
	}
	return Write(path, whole, true)
}
