package main

import (
	"os"

	"golang.org/x/sys/windows"
)

// columnsOf asks a console how wide its window is; 0 of what is none.
func columnsOf(terminal *os.File) int {
	var info windows.ConsoleScreenBufferInfo
	if windows.GetConsoleScreenBufferInfo(windows.Handle(terminal.Fd()), &info) != nil {
		return 0
	}
	return int(info.Window.Right-info.Window.Left) + 1
}
