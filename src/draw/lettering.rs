//! Words on a page: about how wide they are, and where lines break.

/// About how wide a text is, mm. `size` is the font size, mm. The widths are those of a wide font, so that words fit in any.
pub fn width(text: &str, size: f64) -> f64 {
    let ems: f64 = text
        .chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | ' ' | '.' | ',' | ';' | ':' | '\'' => 0.34,
            't' | 'f' | 'r' | '[' | ']' | '(' | ')' | '-' => 0.41,
            'm' | 'w' | 'M' | 'W' | '+' => 0.97,
            'A'..='Z' => 0.75,
            c if c.is_ascii() => 0.63,
            '\u{0300}'..='\u{036F}' => 0.0,
            '\u{00A0}'..='\u{04FF}' => 0.72,
            _ => 1.05,
        })
        .sum();
    ems * size
}

/// Breaks a text into lines no wider than `room` mm. A word longer than a line is broken too.
pub fn lines(text: &str, size: f64, room: f64) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut so_far = 0.0;
    for word in text.split_whitespace() {
        let wide = width(word, size);
        let space = if line.is_empty() { 0.0 } else { width(" ", size) };
        if so_far + space + wide > room && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
            so_far = 0.0;
        }
        if !line.is_empty() {
            line.push(' ');
            so_far += space;
        }
        if wide <= room {
            line.push_str(word);
            so_far += wide;
            continue;
        }
        for letter in word.chars() {
            let wide = width(letter.encode_utf8(&mut [0; 4]), size);
            if so_far + wide > room && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
                so_far = 0.0;
            }
            line.push(letter);
            so_far += wide;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}
