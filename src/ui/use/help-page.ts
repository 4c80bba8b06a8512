import type { Component, InjectionKey, Ref } from 'vue';

/** The address of the handbook's page on what is being done; '' where none can be opened without losing something. */
export const HELP_PAGE: InjectionKey<Readonly<Ref<string>>> = Symbol('help page');

/** Shows what that page says where one is: for dialogs, which a link would leave. */
export const HELP_HERE: InjectionKey<Component> = Symbol('help here');
