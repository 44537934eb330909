package org.holdtrace.panel;

/** What the panel tells the technician: one sign at a time. */
public enum PanelSign {
    /** Ready, no session. */
    READY,
    /** Recording, the line at rest. */
    REST,
    /** Pressure builds: keep pumping. */
    KEEP_PUMPING,
    /** Pressure has stopped rising although pumping goes on. */
    STALLED,
    /** Pumping has stopped: shut the valve, the line settles. */
    SETTLING,
    /** Holding: wait. */
    HOLDING,
    /** Enough is known: let the pressure off. */
    ENOUGH,
    /** Pressure is being let off. */
    LETTING_OFF,
    /** The sensor, the converter or the wire is at fault; reading goes on. */
    SENSOR_FAULT,
    /** The session cannot be written: disk full, read-only or gone. */
    RECORDING_FAULT
}
