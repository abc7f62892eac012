package browser

import (
	"errors"
	"fmt"
)

// tap puts a finger on a place of the screen, CSS pixels from its top left, and lifts it;
// on a screen that is not a phone's it clicks there.
func (p *Page) tap(x, y float64) error {
	if !p.touch {
		return p.click(x, y)
	}
	finger := []params{{"x": x, "y": y}}
	return errors.Join(
		p.call("Input.dispatchTouchEvent", params{"type": "touchStart", "touchPoints": finger}, nil),
		p.call("Input.dispatchTouchEvent", params{"type": "touchEnd", "touchPoints": []params{}}, nil),
	)
}

func (p *Page) click(x, y float64) error {
	for _, kind := range []string{"mousePressed", "mouseReleased"} {
		args := params{"type": kind, "x": x, "y": y, "button": "left", "clickCount": 1}
		if err := p.call("Input.dispatchMouseEvent", args, nil); err != nil {
			return err
		}
	}
	return nil
}

// TapOn taps the middle of the first element that a selector finds, scrolled into view.
// One that is not there, or where another lies over it, is an error.
func (p *Page) TapOn(selector string) error {
	var at struct {
		X, Y  float64
		Wrong string
	}
	err := p.Eval(fmt.Sprintf(`(selector => {
		const e = document.querySelector(selector);
		if (!e) return {wrong: 'is not there'};
		e.scrollIntoView({block: 'center', inline: 'center', behavior: 'instant'});
		const r = e.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + r.height / 2;
		const top = document.elementFromPoint(x, y);
		if (top !== e && !e.contains(top)) return {wrong: 'lies under ' + (top ? top.outerHTML.slice(0, 80) : 'nothing')};
		return {x, y};
	})(%q)`, selector), &at)
	if err == nil && at.Wrong != "" {
		err = fmt.Errorf("%s %s", selector, at.Wrong)
	}
	if err != nil {
		return err
	}
	return p.tap(at.X, at.Y)
}

// Type types a text, a key a letter, where the keyboard is.
func (p *Page) Type(text string) error {
	for _, letter := range text {
		k := key{Key: string(letter), Text: string(letter)}
		if letter == '\n' {
			k = keys["Enter"]
		}
		if err := p.press(k); err != nil {
			return err
		}
	}
	return nil
}

// key is a key of a keyboard; Code is its number in Windows, by which a browser knows it.
type key struct {
	Key, Text string
	Code      int
}

// keys are those that write nothing by themselves.
var keys = map[string]key{
	"Enter": {"Enter", "\r", 13}, "Tab": {"Tab", "", 9}, "Backspace": {"Backspace", "", 8}, "Delete": {"Delete", "", 46}, "Escape": {"Escape", "", 27},
	"ArrowLeft": {"ArrowLeft", "", 37}, "ArrowUp": {"ArrowUp", "", 38}, "ArrowRight": {"ArrowRight", "", 39}, "ArrowDown": {"ArrowDown", "", 40},
	"Home": {"Home", "", 36}, "End": {"End", "", 35}, "PageUp": {"PageUp", "", 33}, "PageDown": {"PageDown", "", 34},
}

// Press presses a key by its name in a browser, such as Enter or ArrowUp. Another name is
// an error.
func (p *Page) Press(name string) error {
	k, known := keys[name]
	if !known {
		return fmt.Errorf("no key %q", name)
	}
	return p.press(k)
}

func (p *Page) press(k key) error {
	args := params{"type": "keyDown", "key": k.Key, "windowsVirtualKeyCode": k.Code}
	if k.Text == "" {
		args["type"] = "rawKeyDown"
	} else {
		args["text"] = k.Text
	}
	if err := p.call("Input.dispatchKeyEvent", args, nil); err != nil {
		return err
	}
	return p.call("Input.dispatchKeyEvent", params{"type": "keyUp", "key": k.Key, "windowsVirtualKeyCode": k.Code}, nil)
}
