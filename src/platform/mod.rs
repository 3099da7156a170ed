//! The phone: clock, device, files and sharing, voice, vibration, wake lock, app update. Knows no entry and no screen.
