//! Reading and writing: the rim of the program.

use super::Stop;
use byrnie::notation::read;
use byrnie::pattern::{Bases, Found};
use byrnie::text::{MAX_BYTES, Source, short_name};
use byrnie::{Library, Weave};
use std::fs::File;
use std::io::{IsTerminal, Read, Write};
use std::path::{Path, PathBuf};

/// Columns a report is drawn in.
pub fn width() -> usize {
    100
}

/// Whether reports on standard output are coloured.
pub fn colour_on_stdout() -> bool {
    std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none()
}

/// Whether reports on standard error are coloured.
pub fn colour_on_stderr() -> bool {
    std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none()
}

/// Prints to standard output. A reader that has gone away (`| head`) is no fault.
///
/// # Errors
/// Exit code 2 when the output cannot be written, as on a full disk.
pub fn print(text: &str) -> Result<(), Stop> {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(e) if e.kind() != std::io::ErrorKind::BrokenPipe => Err(Stop::usage(format!("cannot write: {e}"))),
        _ => Ok(()),
    }
}

/// Prints to standard error; there is nowhere left to say that it cannot be written.
pub fn complain(text: &str) {
    let _ = writeln!(std::io::stderr(), "{}", text.trim_end());
}

/// The text of a file, or of standard input for `-`.
///
/// # Errors
/// Exit code 2 with the file's name and a way out.
pub fn source(file: &Path) -> Result<Source, Stop> {
    let source = text(file)?;
    let fail = |why: String| Stop::usage(format!("{}: {why}", source.name()));
    let (tree, faults) = read(0, source.text());
    if tree.statements.is_empty() && faults.is_empty() {
        return Err(fail("there is no weave in it; start from one of `byrnie weaves`".to_owned()));
    }
    Ok(source)
}

/// The text of a file that need not be a weave.
///
/// # Errors
/// Exit code 2 with the file's name and a way out.
pub fn text(file: &Path) -> Result<Source, Stop> {
    let (name, bytes) = bytes(file)?;
    Source::from_bytes(name.clone(), bytes).map_err(|e| Stop::usage(format!("{name}: {e}")))
}

/// What messages call a file, and what is in it: at most one byte more than is ever read.
///
/// # Errors
/// Exit code 2 with the file's name and a way out.
pub fn bytes(file: &Path) -> Result<(String, Vec<u8>), Stop> {
    let name = if file == Path::new("-") { "standard input".to_owned() } else { file.display().to_string() };
    let bytes = bytes_of(file).map_err(|e| Stop::usage(format!("{name}: {}", why(&e))))?;
    Ok((name, bytes))
}

fn bytes_of(file: &Path) -> std::io::Result<Vec<u8>> {
    // One byte more than is read shows that there is too much; a file of any length costs no more.
    let most = MAX_BYTES as u64 + 1;
    let mut bytes = Vec::new();
    if file == Path::new("-") {
        std::io::stdin().lock().take(most).read_to_end(&mut bytes)?;
        return Ok(bytes);
    }
    let open = File::open(file)?;
    if open.metadata()?.is_dir() {
        return Err(std::io::ErrorKind::IsADirectory.into());
    }
    open.take(most).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// Why a file could not be opened or read, in plain words.
fn why(error: &std::io::Error) -> String {
    match error.kind() {
        std::io::ErrorKind::NotFound => "there is no such file".to_owned(),
        std::io::ErrorKind::IsADirectory => "this is a folder; name a weave file in it".to_owned(),
        std::io::ErrorKind::PermissionDenied => "you may not read this file".to_owned(),
        _ => format!("cannot be read: {error}"),
    }
}

/// The weave in a file, with its bases from the library or beside it.
///
/// # Errors
/// Exit code 2 where the file cannot be read.
pub fn weave(file: &Path) -> Result<Weave, Stop> {
    Ok(compile(file, source(file)?))
}

/// A text compiled as if it stood in `file`.
pub fn compile(file: &Path, source: Source) -> Weave {
    let folder = file.parent().filter(|_| file != Path::new("-")).map_or_else(PathBuf::new, Path::to_path_buf);
    Weave::compile(source, &Beside { folder })
}

/// Bases from the built-in library, or else a file in the same folder.
struct Beside {
    folder: PathBuf,
}

impl Bases for Beside {
    fn find(&self, name: &str) -> Found {
        let found = Library.find(name);
        if matches!(found, Found::Text(_)) {
            return found;
        }
        // A base is named, not reached for: no name leads out of the folder.
        if name.contains(['/', '\\', '\0']) {
            return Found::Unreadable("a base lies in the same folder; write its name alone".to_owned());
        }
        for candidate in [name.to_owned(), format!("{name}.weave"), format!("{}.weave", short_name(name))] {
            let path = self.folder.join(&candidate);
            if path.extension().is_some_and(|e| e == "weave") && path.exists() {
                return match source(&path) {
                    Ok(source) => Found::Text(source),
                    Err(stop) => Found::Unreadable(stop.message),
                };
            }
        }
        found
    }
}

/// Makes a folder, and those it lies in, where there is none.
///
/// # Errors
/// Exit code 2 with the folder's name.
pub fn folder(folder: &Path) -> Result<(), Stop> {
    std::fs::create_dir_all(folder)
        .map_err(|e| Stop::usage(format!("{}: the folder cannot be made: {e}", folder.display())))
}

/// Writes a file whole or not at all: to a new file in the same folder, which then takes the old one's
/// place. Permissions of an old file are kept, and a link is followed.
///
/// # Errors
/// Exit code 2 with the file's name.
pub fn write(file: &Path, text: &str) -> Result<(), Stop> {
    write_bytes(file, text.as_bytes())
}

/// The same of a file that is no text.
///
/// # Errors
/// Exit code 2 with the file's name.
pub fn write_bytes(file: &Path, bytes: &[u8]) -> Result<(), Stop> {
    let fail = |e: &dyn std::fmt::Display| Stop::usage(format!("{}: cannot be written: {e}", file.display()));
    let target = std::fs::canonicalize(file).unwrap_or_else(|_| file.to_path_buf());
    // A device or a pipe would be replaced by a file.
    if std::fs::metadata(file).is_ok_and(|old| !old.is_file()) {
        return Err(fail(&"it is no plain file"));
    }
    let folder = target.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut new = tempfile::Builder::new();
    new.prefix(".byrnie-");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        new.permissions(std::fs::Permissions::from_mode(0o666));
    }
    let mut new = new.tempfile_in(folder).map_err(|e| fail(&e))?;
    new.write_all(bytes).map_err(|e| fail(&e))?;
    if let Ok(old) = std::fs::metadata(&target) {
        new.as_file().set_permissions(old.permissions()).map_err(|e| fail(&e))?;
    }
    new.as_file().sync_all().map_err(|e| fail(&e))?;
    new.persist(&target).map_err(|e| fail(&e.error))?;
    Ok(())
}
