import { defineStore } from 'pinia';
import { makeScale } from './make-scale.ts';
import { portsOf } from './port.ts';

/** The scale of this window, shared by every number entry. */
export const useScale = defineStore('scale', () => {
  const scale = makeScale({ ports: portsOf(navigator), storage: localStorage, now: () => performance.now() });
  void scale.resume();
  return { ...scale, hasPorts: portsOf(navigator) !== null };
});
